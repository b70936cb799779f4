import { useEffect, useRef } from 'react';
import { demos } from '../documents/demos.ts';
import { modes } from '../runs/mode.ts';
import { isEdited, redo, undo } from '../store/document.ts';
import { pickAndOpen, save, takeDemo } from './actions.ts';
import { Icon } from './Icon.tsx';
import { nextTheme } from './theme.ts';
import { useBench, useDocument, useNotice, useSettings } from './workbench.ts';

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
      <span className="edited">{edited ? 'edited' : ''}</span>
    </div>
  );
}

/** The scenarios that ship with the app, in a list that opens below its button. */
function DemoPicker() {
  const bench = useBench();
  const list = useRef<HTMLElement>(null);
  const open = useDocument((state) => state.name);
  return (
    <>
      <button type="button" className="button" popoverTarget="demos">
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
              takeDemo(bench, demo);
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

function UndoRedo() {
  const { documents } = useBench();
  const canUndo = useDocument(({ past }) => past.length > 0);
  const canRedo = useDocument(({ future }) => future.length > 0);
  return (
    <div className="group">
      <button
        type="button"
        className="button icon-only"
        aria-label="Take the last edit back"
        title="Take the last edit back (Ctrl+Z)"
        disabled={!canUndo}
        onClick={() => undo(documents)}
      >
        <Icon name="undo" />
      </button>
      <button
        type="button"
        className="button icon-only"
        aria-label="Do the edit again"
        title="Do the edit again (Ctrl+Shift+Z)"
        disabled={!canRedo}
        onClick={() => redo(documents)}
      >
        <Icon name="redo" />
      </button>
    </div>
  );
}

/** Standing, crawling or driven. */
function ModeSwitch() {
  const { settings } = useBench();
  const mode = useSettings((state) => state.mode);
  return (
    <fieldset className="segments modes">
      <legend className="unseen">How the vehicle is looked at</legend>
      {modes.map(({ id, title, says, key }) => (
        <label key={id} title={`${says} (${key})`}>
          <input
            type="radio"
            name="mode"
            checked={mode === id}
            onChange={() => settings.setState({ mode: id })}
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
      <span className="wordmark">Axlewright</span>
      <DocumentTitle />
      <ModeSwitch />
      <div className="group">
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
          title="Save the file (Ctrl+S)"
          onClick={() => void save(bench)}
        >
          Save
        </button>
      </div>
      <UndoRedo />
      <AxisSwitch />
      <div className="group">
        <ThemeButton />
        <HelpButton />
      </div>
    </header>
  );
}
