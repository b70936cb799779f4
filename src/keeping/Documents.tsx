import { useEffect, useRef, useState } from 'react';
import { copyLink, pickAndOpen, save, takeDemo } from '../app/actions.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDocument, useNotice } from '../app/workbench.ts';
import { demos } from '../documents/demos.ts';
import { DocumentRow } from './DocumentRow.tsx';
import { BRING_BACK } from './keeper.ts';
import { empty, type Listing, setDeleted, useListing } from './listing.ts';
import { stemOf } from './names.ts';
import { unlessLost } from './opening.ts';
import { ToastView } from './ToastView.tsx';
import { VersionForm } from './Versions.tsx';
import { whenWords } from './when.ts';

/** What can be done with the document that is open. */
function OpenDocument({ listing }: { readonly listing: Listing | undefined }) {
  const bench = useBench();
  const name = useDocument((state) => state.name);
  const [naming, setNaming] = useState(false);
  return (
    <section className="open-document" aria-label="The open document">
      <p>
        <span className="soft">Open: </span>
        <b>{stemOf(name)}</b>
      </p>
      <div className="group">
        <button
          type="button"
          className="button"
          disabled={listing?.keeper.shelf === undefined}
          aria-expanded={naming}
          onClick={() => setNaming(!naming)}
        >
          Save a version
        </button>
        <button type="button" className="button" title="Copy a link (L)" onClick={() => void copyLink(bench)}>
          Copy link
        </button>
        <button
          type="button"
          className="button"
          title="Save under another name (Ctrl+Shift+S)"
          onClick={() => void save(bench, true)}
        >
          Save as a file
        </button>
      </div>
      {naming && listing !== undefined ? (
        <VersionForm keeper={listing.keeper} onDone={() => setNaming(false)} />
      ) : null}
    </section>
  );
}

/** Scenarios that ship with the app, and the way to a file. */
function BeginFrom({ close }: { readonly close: () => void }) {
  const bench = useBench();
  return (
    <section aria-labelledby="begin-from">
      <h3 id="begin-from">Begin from</h3>
      <div className="begin-from">
        {demos.map((demo) => (
          <button
            key={demo.name}
            type="button"
            className="menu-item"
            onClick={() => {
              close();
              void takeDemo(bench, demo);
            }}
          >
            <span>{demo.title}</span>
            <span className="file-name">demo</span>
          </button>
        ))}
        <button
          type="button"
          className="menu-item"
          onClick={() => {
            close();
            void pickAndOpen(bench);
          }}
        >
          <span>A file from your disk …</span>
          <span className="file-name">Ctrl+O, or drop it onto the window</span>
        </button>
      </div>
    </section>
  );
}

/** What was deleted lately, to be brought back. */
function Deleted({ listing }: { readonly listing: Listing }) {
  const { keeper, deleted } = listing;
  if (deleted.length === 0) return null;
  return (
    <details className="deleted">
      <summary>
        Deleted <span className="count">{deleted.length}</span>
      </summary>
      <p className="soft">They go for good {BRING_BACK / 86_400_000} days after they were deleted.</p>
      <ul>
        {deleted.map((head) => (
          <li key={head.id}>
            <span>{stemOf(head.name)}</span>
            <span className="soft">{whenWords(head.deleted ?? 0)}</span>
            <button
              type="button"
              className="button small"
              aria-label={`Bring back ${stemOf(head.name)}`}
              onClick={() => void setDeleted(keeper, head, undefined)}
            >
              Bring back
            </button>
          </li>
        ))}
      </ul>
      <button type="button" className="button small" onClick={() => void empty(keeper, deleted)}>
        Delete all of these for good
      </button>
    </details>
  );
}

/** Where the documents are, and how safe they are there. */
function Whereabouts() {
  const [safe, setSafe] = useState<boolean>();
  useEffect(() => {
    void navigator.storage?.persisted?.().then(setSafe, () => undefined);
  }, []);
  const ask = (): void => void navigator.storage.persist().then(setSafe, () => undefined);
  return (
    <p className="soft whereabouts">
      <span>
        {safe === true
          ? 'Kept in this browser, which has promised not to clear them by itself.'
          : 'Kept in this browser only. It may clear them when the disk runs short; a file is safer.'}
      </span>
      {safe === false ? (
        <button type="button" className="button small" onClick={ask}>
          Ask it not to
        </button>
      ) : null}
    </p>
  );
}

function Own({ close }: { readonly close: () => void }) {
  const bench = useBench();
  const { listing, failed } = useListing();
  const openId = useDocument((state) => state.id);
  if (failed !== undefined) return <p className="soft">They cannot be read: {failed}.</p>;
  const open = (id: string): void =>
    unlessLost(bench, () => {
      bench.notices.setState({ refused: undefined });
      listing?.keeper.open(id).then(close, (error: unknown) => {
        const why = error instanceof Error ? error.message : 'no reason given';
        bench.keeping.setState({ toast: { says: `It could not be opened: ${why}.` } });
      });
    });
  return (
    <>
      <OpenDocument listing={listing} />
      <section aria-labelledby="own-documents">
        <h3 id="own-documents">Your documents</h3>
        {listing === undefined ? null : listing.heads.length === 0 ? (
          <p className="soft">
            {listing.keeper.shelf === undefined
              ? 'This browser stores nothing for this page.'
              : 'None yet. A demo becomes one of yours with its first change.'}
          </p>
        ) : (
          <ul className="own">
            {listing.heads.map((head) => (
              <DocumentRow
                key={head.id}
                head={head}
                listing={listing}
                isOpen={head.id === openId}
                onOpen={() => open(head.id)}
              />
            ))}
          </ul>
        )}
        {listing === undefined ? null : <Deleted listing={listing} />}
      </section>
    </>
  );
}

/** Everything that is kept in this browser, and what one can begin from. */
export function Documents() {
  const { keeping } = useBench();
  const asking = useNotice((state) => state.asking !== undefined);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    // A click beside it closes it too, where the browser knows how.
    dialog.current?.setAttribute('closedby', 'any');
    dialog.current?.showModal();
  }, []);
  const close = (): void => keeping.setState({ view: undefined });
  // The question lies under a dialog that was opened later.
  useEffect(() => {
    if (asking) keeping.setState({ view: undefined });
  }, [asking, keeping]);
  return (
    <dialog className="documents" ref={dialog} aria-labelledby="documents-title" onClose={close}>
      <div className="documents-inside">
        <h2 id="documents-title">
          Documents
          <button
            type="button"
            className="button icon-only bare"
            aria-label="Close the documents"
            onClick={close}
          >
            <Icon name="cross" />
          </button>
        </h2>
        <Own close={close} />
        <BeginFrom close={close} />
        <Whereabouts />
      </div>
      <ToastView />
    </dialog>
  );
}
