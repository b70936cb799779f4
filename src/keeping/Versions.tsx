import { type FormEvent, useState } from 'react';
import { takeText } from '../app/take.ts';
import { useBench, type Workbench } from '../app/workbench.ts';
import { admit } from '../documents/admit.ts';
import { commit, textOf } from '../store/document.ts';
import { sharing } from './changes.ts';
import type { Keeper } from './keeper.ts';
import { stemOf } from './names.ts';
import type { Head } from './record.ts';
import type { Version } from './shelf.ts';
import { whenWords } from './when.ts';

/** Keeps the open document as it now is under a name. */
export function VersionForm({ keeper, onDone }: { readonly keeper: Keeper; readonly onDone: () => void }) {
  const { documents, keeping } = useBench();
  const [says, setSays] = useState('');
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const text = textOf(documents.getState());
    const doc = await keeper.ensure();
    if (doc === undefined) return;
    try {
      await keeper.shelf?.saveVersion({ id: keeper.fresh(), doc, says: says.trim(), at: Date.now(), text });
      keeper.changed();
      keeper.say({ says: `Version '${says.trim()}' was saved.` });
      onDone();
    } catch {
      keeping.setState({ trouble: { kind: 'full' } });
    }
  };
  return (
    <form className="inline-form" onSubmit={(event) => void submit(event)}>
      <input
        // biome-ignore lint/a11y/noAutofocus: the field appears because its button was pressed.
        autoFocus
        aria-label="Name of the version"
        placeholder="softer bars, before the new pivot …"
        maxLength={80}
        value={says}
        onChange={(event) => setSays(event.currentTarget.value)}
      />
      <button type="submit" className="button" disabled={says.trim() === ''}>
        Save version
      </button>
    </form>
  );
}

/** Makes the open document what a version was: one step, which can be taken back. */
function goBackTo({ documents, keeping }: Workbench, { says, text }: Version): void {
  const admitted = admit(text);
  if (!admitted.ok) {
    keeping.setState({ toast: { says: `'${says}' cannot be read: ${admitted.problems[0]?.message ?? ''}` } });
    return;
  }
  const { raw } = documents.getState();
  commit(documents, { says: `go back to '${says}'`, document: sharing(raw, admitted.value) });
  keeping.setState({
    view: undefined,
    toast: { says: `Gone back to '${says}'; one step takes it back again.` },
  });
}

interface VersionsProps {
  readonly keeper: Keeper;
  readonly head: Head;
  readonly versions: readonly Version[];
  readonly isOpen: boolean;
}

/** Named versions of a document. */
export function Versions({ keeper, head, versions, isOpen }: VersionsProps) {
  const bench = useBench();
  const goBack = async (version: Version): Promise<void> => {
    if (!isOpen) await keeper.open(head.id);
    goBackTo(bench, version);
  };
  const openCopy = ({ says, text }: Version): void => {
    bench.keeping.setState({ view: undefined });
    takeText(bench, `${stemOf(head.name)} ${says}.json`, text);
  };
  const remove = async (version: Version): Promise<void> => {
    await keeper.shelf?.deleteVersion(version.id);
    keeper.changed();
    const bringBack = async (): Promise<void> => {
      await keeper.shelf?.saveVersion(version);
      keeper.changed();
    };
    keeper.say({
      says: `Version '${version.says}' was deleted.`,
      action: { label: 'Bring it back', run: () => void bringBack() },
    });
  };
  if (versions.length === 0) {
    return (
      <p className="soft versions">
        {isOpen
          ? 'None yet. “Save a version” above keeps the document as it is now under a name.'
          : 'None yet. Open it and save one.'}
      </p>
    );
  }
  return (
    <ul className="versions">
      {versions.map((version) => (
        <li key={version.id}>
          <span>{version.says}</span>
          <span className="soft">{whenWords(version.at)}</span>
          <span className="group">
            <button type="button" className="button small" onClick={() => void goBack(version)}>
              Go back to it
            </button>
            <button type="button" className="button small" onClick={() => openCopy(version)}>
              Open a copy
            </button>
            <button
              type="button"
              className="button small"
              aria-label={`Delete version ${version.says}`}
              onClick={() => void remove(version)}
            >
              Delete
            </button>
          </span>
        </li>
      ))}
    </ul>
  );
}
