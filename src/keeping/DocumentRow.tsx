import { type FormEvent, useState } from 'react';
import { useBench } from '../app/workbench.ts';
import { demos, flagship } from '../documents/demos.ts';
import { duplicate, type Listing, setDeleted } from './listing.ts';
import { stemOf, typedName } from './names.ts';
import { takeDemo } from './opening.ts';
import type { Head } from './record.ts';
import { Thumbnail } from './Thumbnail.tsx';
import { Versions } from './Versions.tsx';
import { whenWords } from './when.ts';

/** A field for another name of a document. */
function Rename({
  head,
  onDone,
}: {
  readonly head: Head;
  readonly onDone: (name: string | undefined) => void;
}) {
  const [text, setText] = useState(stemOf(head.name));
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    onDone(typedName(text));
  };
  return (
    <form className="inline-form" onSubmit={submit}>
      <input
        // biome-ignore lint/a11y/noAutofocus: the field appears because its button was pressed.
        autoFocus
        aria-label={`New name of ${stemOf(head.name)}`}
        maxLength={80}
        value={text}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setText(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Escape') return;
          event.preventDefault();
          event.stopPropagation();
          onDone(undefined);
        }}
      />
      <button type="submit" className="button small" disabled={typedName(text) === undefined}>
        Rename
      </button>
    </form>
  );
}

interface RowProps {
  readonly head: Head;
  readonly listing: Listing;
  readonly isOpen: boolean;
  readonly onOpen: () => void;
}

/** Deletes a document, with the way back; what is open here gives way to the newest other one, or to a demo. */
function useDelete({ head, listing, isOpen }: Pick<RowProps, 'head' | 'listing' | 'isOpen'>): () => void {
  const bench = useBench();
  const { keeper, heads } = listing;
  return () => {
    const next = heads.find(({ id }) => id !== head.id && !listing.open.has(id));
    const demo = demos.find(({ name }) => name === flagship);
    const leave = async (): Promise<void> => {
      if (!isOpen) return;
      if (next !== undefined) await keeper.open(next.id);
      else if (demo !== undefined) await takeDemo(bench, demo);
    };
    const bringBack = async (): Promise<void> => {
      await setDeleted(keeper, head, undefined);
      if (isOpen) await keeper.open(head.id);
    };
    void leave()
      .then(() => setDeleted(keeper, head, Date.now()))
      .then(() =>
        keeper.say({
          says: `${stemOf(head.name)} was deleted.`,
          action: { label: 'Bring it back', run: () => void bringBack() },
        }),
      );
  };
}

/** One kept document: picture, names, when it was changed, and what can be done with it. */
export function DocumentRow({ head, listing, isOpen, onOpen }: RowProps) {
  const bench = useBench();
  const { keeper } = listing;
  const [shows, show] = useState<'rename' | 'versions'>();
  const remove = useDelete({ head, listing, isOpen });
  const stem = stemOf(head.name);
  const elsewhere = !isOpen && listing.open.has(head.id);
  const versions = listing.versions.get(head.id) ?? [];
  const rename = (name: string | undefined): void => {
    show(undefined);
    if (name === undefined || name === head.name) return;
    // The file on the disk keeps its old name; saving asks where the new one is to be.
    if (isOpen) bench.documents.setState({ name, handle: undefined });
    else
      void keeper.shelf
        ?.amend(head.id, (now) => ({ ...now, name }))
        .then(() => keeper.shelf?.keepHandle(head.id, undefined))
        .then(() => keeper.changed());
  };
  return (
    <li className="document" data-open={isOpen}>
      <button type="button" className="document-open" aria-current={isOpen} onClick={onOpen}>
        <Thumbnail picture={head.picture} />
        <span className="document-names">
          <b>{stem}</b>
          <span className="soft">{head.title}</span>
        </span>
        <span className="document-when">
          {whenWords(head.changed)}
          <span className="soft">{isOpen ? 'open here' : elsewhere ? 'open in another tab' : ''}</span>
        </span>
      </button>
      <div className="group document-actions">
        <button
          type="button"
          className="button small bare"
          aria-label={`Duplicate ${stem}`}
          onClick={() => void duplicate(listing, head)}
        >
          Duplicate
        </button>
        <button
          type="button"
          className="button small bare"
          aria-label={`Rename ${stem}`}
          aria-expanded={shows === 'rename'}
          disabled={elsewhere}
          onClick={() => show(shows === 'rename' ? undefined : 'rename')}
        >
          Rename
        </button>
        <button
          type="button"
          className="button small bare"
          aria-label={`Versions of ${stem}`}
          aria-expanded={shows === 'versions'}
          onClick={() => show(shows === 'versions' ? undefined : 'versions')}
        >
          Versions{versions.length > 0 ? ` ${versions.length}` : ''}
        </button>
        <button
          type="button"
          className="button small bare"
          aria-label={`Delete ${stem}`}
          disabled={elsewhere}
          onClick={remove}
        >
          Delete
        </button>
      </div>
      {shows === 'rename' ? <Rename head={head} onDone={rename} /> : null}
      {shows === 'versions' ? (
        <Versions keeper={keeper} head={head} versions={versions} isOpen={isOpen} />
      ) : null}
    </li>
  );
}
