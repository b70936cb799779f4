import type { Json } from '../documents/json.ts';
import type { Known } from '../store/document.ts';
import type { Toast } from '../store/keeping.ts';
import { type Claim, claim } from './claim.ts';
import { takeLeft } from './journal.ts';
import { isLink, linkedIn } from './link.ts';
import type { Marker } from './marker.ts';
import { type Keepable, restored } from './record.ts';
import { type Found, openShelf, type Shelf } from './shelf.ts';
import { type Trouble, troubleOf } from './trouble.ts';

/** What a window begins with when it does not begin with a demo. */
export interface Begun {
  readonly name: string;
  readonly text: string;
  readonly written: Json;
  readonly known: Known;
}

/** What came of looking for it, and everything that was opened on the way. */
export interface Beginning {
  /** The page's address had this when it was looked at. */
  readonly fragment: string;
  readonly begun?: Begun;
  readonly shelf?: Shelf;
  readonly trouble?: Trouble;
  /** The kept document that is `begun`, with the right to write it, unless another tab has that. */
  readonly found?: Found;
  readonly state?: Keepable;
  readonly claim?: Claim;
  readonly toast?: Toast;
  /** A link that was no good. */
  readonly refused?: string;
  /** Told when the database has to be let go after this; set by whoever keeps the document. */
  readonly lost: { tell(trouble: Trouble): void };
}

const clock = (ms: number): string =>
  new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit', second: '2-digit' }).format(ms);

/** A kept document as it was, ready to be opened. @throws when what was kept makes no sense */
export function begunFrom(found: Found, handle?: unknown): { begun: Begun; state: Keepable } {
  const state = restored(found.head, found.body, found.rows);
  const { text, written, raw, past, future } = state;
  const { id, name } = found.head;
  const known: Known = {
    id,
    raw,
    past,
    future,
    ...(handle === undefined ? {} : { handle: handle as never }),
  };
  return { begun: { name, text, written, known }, state };
}

async function reopen(shelf: Shelf, { id, left }: Marker & { id: string }): Promise<Partial<Beginning>> {
  const [found, handle] = await Promise.all([shelf.find(id), shelf.handle(id).catch(() => undefined)]);
  if (found === undefined || found.head.deleted !== undefined) {
    return { toast: { says: 'What you had open last is no longer among the documents in this browser.' } };
  }
  try {
    const { begun, state } = begunFrom(found, handle);
    const held = await claim(id);
    const ended = left === false && held !== undefined;
    const says = `Axlewright ended without closing. ${found.head.name} is as it was kept at ${clock(found.head.changed)}.`;
    return { begun, state, found, ...(held ? { claim: held } : {}), ...(ended ? { toast: { says } } : {}) };
  } catch (error) {
    const why = error instanceof Error ? error.message : '';
    return {
      toast: { says: `${found.head.name} could not be read (${why}). It was left as it is, in Documents.` },
    };
  }
}

async function fromLink(fragment: string): Promise<Partial<Beginning>> {
  const linked = await linkedIn(fragment);
  if (!linked.ok) return { refused: linked.says };
  const { admit } = await import('../documents/admit.ts');
  const admitted = admit(linked.text);
  if (!admitted.ok) {
    const [first] = admitted.problems;
    return {
      refused: `The link holds no good scenario: ${first?.path ?? ''} ${first?.message ?? ''}`.trim(),
    };
  }
  const { name, text } = linked;
  return { begun: { name, text, written: admitted.value, known: {} } };
}

/**
 * Looks for what the window is to begin with: the scenario of a link, or what was open last.
 * @param fragment of the page's address
 */
export async function begin(fragment: string, marker: Marker): Promise<Beginning> {
  const lost: Beginning['lost'] = { tell: () => undefined };
  const shelf = await openShelf((trouble) => lost.tell(trouble));
  const base = { fragment, lost };
  if ('trouble' in shelf) return { ...base, ...(isLink(fragment) ? await fromLink(fragment) : {}), ...shelf };
  try {
    // One that makes no sense must not keep the window from opening.
    await shelf.catchUp(takeLeft()).catch(() => undefined);
    const { id } = marker;
    if (isLink(fragment)) return { ...base, shelf, ...(await fromLink(fragment)) };
    return { ...base, shelf, ...(id === undefined ? {} : await reopen(shelf, { ...marker, id })) };
  } catch (error) {
    return { ...base, trouble: troubleOf(error) };
  }
}
