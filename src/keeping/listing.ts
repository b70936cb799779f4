import { useCallback, useEffect, useState } from 'react';
import { useBench } from '../app/workbench.ts';
import { claimed } from './claim.ts';
import type { Keeper } from './keeper.ts';
import { copyName } from './names.ts';
import type { Head } from './record.ts';
import type { Version } from './shelf.ts';

/** What the list of documents shows. */
export interface Listing {
  readonly keeper: Keeper;
  readonly heads: readonly Head[];
  readonly deleted: readonly Head[];
  readonly versions: ReadonlyMap<string, readonly Version[]>;
  /** Documents that some tab has open. */
  readonly open: ReadonlySet<string>;
}

async function listed(keeper: Keeper): Promise<Listing> {
  const { shelf } = keeper;
  await keeper.flush();
  const all = (await shelf?.heads()) ?? [];
  const heads = all.filter(({ deleted }) => deleted === undefined);
  const rows = await Promise.all(
    heads.map(async ({ id }) => [id, (await shelf?.versions(id)) ?? []] as const),
  );
  const deleted = all.filter(({ deleted: when }) => when !== undefined);
  return { keeper, heads, deleted, versions: new Map(rows), open: await claimed() };
}

/** Documents as they now are, here and in other tabs; undefined until they are read. */
export function useListing(): { readonly listing: Listing | undefined; readonly failed: string | undefined } {
  const bench = useBench();
  const [listing, setListing] = useState<Listing>();
  const [failed, setFailed] = useState<string>();
  const read = useCallback(
    (keeper: Keeper) =>
      listed(keeper).then(setListing, (error: unknown) =>
        setFailed(error instanceof Error ? error.message : 'no reason given'),
      ),
    [],
  );
  useEffect(() => {
    let stop = (): void => undefined;
    let gone = false;
    void bench.keeper().then((keeper) => {
      if (gone) return;
      void read(keeper);
      stop = keeper.watch(() => void read(keeper));
    });
    return () => {
      gone = true;
      stop();
    };
  }, [bench, read]);
  return { listing, failed };
}

/** Copies a document under a name that none has. */
export async function duplicate({ keeper, heads }: Listing, head: Head): Promise<void> {
  const taken = new Set(heads.map(({ name }) => name));
  let name = copyName(head.name);
  while (taken.has(name)) name = copyName(name);
  const now = Date.now();
  await keeper.shelf?.duplicate(head.id, { id: keeper.fresh(), name, created: now, changed: now });
  keeper.changed();
}

/** Puts a document among the deleted ones, or back. */
export async function setDeleted(keeper: Keeper, { id }: Head, deleted: number | undefined): Promise<void> {
  await keeper.shelf?.amend(id, ({ deleted: _was, ...head }) =>
    deleted === undefined ? head : { ...head, deleted },
  );
  keeper.changed();
}

/** Deletes for good what was deleted long ago, or all of it. Makes room. */
export async function empty(keeper: Keeper, deleted: readonly Head[]): Promise<void> {
  await keeper.shelf?.destroy(deleted.map(({ id }) => id));
  await keeper.again();
  keeper.changed();
}
