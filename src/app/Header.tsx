import { useEffect, useRef } from 'react';
import { demos } from '../documents/demos.ts';
import { modes } from '../runs/mode.ts';
import { isEdited, redo, undo } from '../store/document.ts';
import { pickAndOpen, save, takeDemo } from './actions.ts';
import { Icon } from './Icon.tsx';
import { nextTheme } from './theme.ts';
import { UnitsButton } from './UnitsButton.tsx';
import { useBench, useDocument, useKeeping, useNotice, useSettings } from './workbench.ts';

/** Title and name of the open document. */
function DocumentTitle() {
  const name = useDocument((state) => state.name);
  const title = useDocument(({ raw }) => (raw as { title?: string } | null)?.title);
  const edited = useDocument(isEdited);
  useEffect(() => {
    document.title = title === undefined ? 'Axlewright' : `${edited ? '• ' : ''}${title} · Axlewright`;
  }, [title, edited]);
  return (
    <div className="document-title">
      <h1 title={title}>{title ?? ' '}</h1>
      <span className="file-name" title={name}>
        {name}
      </span>
      <KeptWords edited={edited} />
    </div>
  );
}

/** Whether the file has what is open, and whether this browser has; a word each, the sentence in the tooltip. */
function KeptWords({ edited }: { readonly edited: boolean }) {
  const phase = useKeeping((state) => state.phase);
  const lost = useKeeping(({ trouble, elsewhere }) => trouble !== undefined || elsewhere !== undefined);
  const readOnly = useDocument((state) => state.readOnly !== undefined);
  const kept = lost || phase === 'none' ? '' : phase === 'kept' ? 'kept' : 'keeping …';
  const says = kept === 'kept' ? 'Kept in this browser; the file does not have the edits yet' : undefined;
  return (
    <span className="edited" title={edited ? says : undefined} data-kept={phase === 'kept' && !lost}>
      {readOnly ? 'read only' : edited ? 'edited' : ''}
      {edited && !readOnly && kept !== '' ? <span className="kept">, {kept}</span> : null}
    </span>
  );
}

/** The scenarios that ship with the app, in a list that opens below its button. */
function DemoPicker() {
  const bench = useBench();
  const list = useRef<HTMLElement>(null);
  const open = useDocument((state) => state.name);
  return (
    <>
      <button type="button" className="button wide-only" popoverTarget="demos">
        Demos
      </button>
      <nav id="demos" className="menu" popover="auto" ref={list} aria-label="Demos">
        {demos.map((demo) => (
          <button
            key={demo.name}
            type="button"
            className="menu-item"
            aria-current={demo.name === open}
            onClick={() => {
              list.current?.hidePopover();
              void takeDemo(bench, demo);
            }}
          >
            <span>{demo.title}</span>
            <span className="file-name">{demo.name}</span>
          </button>
        ))}
      </nav>
    </>
  );
}

/** The documents that this browser keeps. */
function DocumentsButton() {
  const { keeping } = useBench();
  const open = useKeeping((state) => state.view === 'documents');
  return (
    <button
      type="button"
      className="button"
      aria-expanded={open}
      title="Your documents, versions and links (D)"
      onClick={() => keeping.setState({ view: 'documents' })}
    >
      Documents
    </button>
  );
}

function UndoRedo() {
  const { documents, keeping } = useBench();
  const steps = useKeeping((state) => state.view === 'steps');
  const last = useDocument(({ past }) => past.at(-1)?.says);
  const next = useDocument(({ future }) => future[0]?.says);
  return (
    <div className="group">
      <button
        type="button"
        className="button icon-only"
        aria-label="Take the last edit back"
        title={last === undefined ? 'Nothing to take back' : `Take back: ${last} (Ctrl+Z)`}
        disabled={last === undefined}
        onClick={() => undo(documents)}
      >
        <Icon name="undo" />
      </button>
      <button
        type="button"
        className="button icon-only"
        aria-label="Do the edit again"
        title={next === undefined ? 'Nothing to do again' : `Do again: ${next} (Ctrl+Shift+Z)`}
        disabled={next === undefined}
        onClick={() => redo(documents)}
      >
        <Icon name="redo" />
      </button>
      <button
        type="button"
        className="button icon-only"
        aria-label="All steps"
        aria-expanded={steps}
        title="All steps (H)"
        onClick={() => keeping.setState({ view: steps ? undefined : 'steps' })}
      >
        <Icon name="steps" />
      </button>
    </div>
  );
}

const build = {
  id: 'build',
  title: 'Build',
  says: 'The vehicle as it is drawn, to be made and changed by hand',
  key: 'b',
} as const;

/** Built, standing, crawling or driven. */
function ModeSwitch() {
  const { settings } = useBench();
  const mode = useSettings((state) => (state.building ? 'build' : state.mode));
  return (
    <fieldset className="segments modes">
      <legend className="unseen">How the vehicle is looked at</legend>
      {[build, ...modes].map(({ id, title, says, key }) => (
        <label key={id} title={`${says} (${key})`}>
          <input
            type="radio"
            name="mode"
            checked={mode === id}
            onChange={() =>
              settings.setState(id === 'build' ? { building: true } : { mode: id, building: false })
            }
          />
          <span>{title}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** What bands and strips run over. */
function AxisSwitch() {
  const { settings } = useBench();
  const axis = useSettings((state) => state.axis);
  return (
    <fieldset className="segments">
      <legend className="unseen">Bands and strips over</legend>
      {(['station', 'time'] as const).map((choice) => (
        <label key={choice} title={`Bands and strips over ${choice} (X)`}>
          <input
            type="radio"
            name="axis"
            checked={axis === choice}
            onChange={() => settings.setState({ axis: choice })}
          />
          <span>{choice === 'station' ? 'Station' : 'Time'}</span>
        </label>
      ))}
    </fieldset>
  );
}

const themeWords = { system: 'as the system', light: 'light', dark: 'dark' } as const;

function ThemeButton() {
  const { settings } = useBench();
  const theme = useSettings((state) => state.theme);
  return (
    <button
      type="button"
      className="button icon-only"
      aria-label={`Theme: ${themeWords[theme]}. Change`}
      title={`Theme: ${themeWords[theme]} (T)`}
      onClick={() => settings.setState({ theme: nextTheme(theme) })}
    >
      <Icon name={theme} />
    </button>
  );
}

function HelpButton() {
  const { notices } = useBench();
  const help = useNotice((state) => state.help);
  return (
    <button
      type="button"
      className="button icon-only"
      aria-label="Keys"
      aria-expanded={help}
      title="Keys (?)"
      onClick={() => notices.setState({ help: !help })}
    >
      <span aria-hidden="true">?</span>
    </button>
  );
}

/** The bar at the top: what is open, where it comes from and goes to, how it is looked at. */
export function Header() {
  const bench = useBench();
  return (
    <header className="header">
      <span className="wordmark wide-only">Axlewright</span>
      <DocumentTitle />
      <ModeSwitch />
      <div className="group">
        <DocumentsButton />
        <DemoPicker />
        <button
          type="button"
          className="button"
          title="Open a file (Ctrl+O)"
          onClick={() => void pickAndOpen(bench)}
        >
          Open
        </button>
        <button
          type="button"
          className="button"
          title="Save the file (Ctrl+S); under another name (Ctrl+Shift+S)"
          onClick={() => void save(bench)}
        >
          Save
        </button>
      </div>
      <UndoRedo />
      <AxisSwitch />
      <div className="group">
        <UnitsButton />
        <ThemeButton />
        <HelpButton />
      </div>
    </header>
  );
}
