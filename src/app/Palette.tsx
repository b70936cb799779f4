import { type KeyboardEvent, useEffect, useId, useMemo, useRef, useState } from 'react';
import { type Action, actionsFor, allActions } from './allActions.ts';
import { Caps } from './Caps.tsx';
import { useBench } from './workbench.ts';
import '../reading/reading.css';

/** Rows by which Page up and Page down go. */
const PAGE = 8;

function moved(key: string, at: number, count: number): number | undefined {
  const to: Readonly<Record<string, number>> = {
    ArrowDown: (at + 1) % count,
    ArrowUp: (at - 1 + count) % count,
    PageDown: Math.min(at + PAGE, count - 1),
    PageUp: Math.max(at - PAGE, 0),
  };
  return count === 0 ? undefined : to[key];
}

/** Every action by name, found by any words of it, with its keys; closes when one is done, or by Escape. */
export function Palette() {
  const bench = useBench();
  const id = useId();
  const place = useRef<HTMLDivElement>(null);
  const [typed, setTyped] = useState('');
  const [at, setAt] = useState(0);
  const found = useMemo(() => actionsFor(allActions(bench), typed), [bench, typed]);
  useEffect(() => {
    const was = document.activeElement;
    const element = place.current;
    element?.showPopover();
    element?.querySelector('input')?.focus();
    return () => {
      // An action that has put the keyboard somewhere itself keeps it there.
      if (
        was instanceof HTMLElement &&
        (document.activeElement === document.body || document.activeElement === null)
      )
        was.focus();
    };
  }, []);
  useEffect(() => {
    document.getElementById(`${id}-${at}`)?.scrollIntoView({ block: 'nearest' });
  }, [id, at]);
  const close = (): void => bench.notices.setState({ palette: false });
  const run = (action: Action | undefined): void => {
    if (action === undefined) return;
    place.current?.hidePopover();
    close();
    action.run(bench);
  };
  const key = (event: KeyboardEvent): void => {
    const to = moved(event.key, at, found.length);
    if (to !== undefined) setAt(to);
    else if (event.key === 'Enter') run(found[at]);
    else return;
    event.preventDefault();
  };
  return (
    <div
      className="palette"
      popover="auto"
      ref={place}
      role="dialog"
      aria-label="Actions"
      onToggle={(event) => event.newState === 'closed' && close()}
    >
      <input
        className="find"
        type="text"
        role="combobox"
        aria-label="Find an action"
        aria-expanded="true"
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={found.length === 0 ? undefined : `${id}-${at}`}
        autoComplete="off"
        spellCheck={false}
        placeholder="What is to be done?"
        value={typed}
        onChange={({ currentTarget }) => {
          setTyped(currentTarget.value);
          setAt(0);
        }}
        onKeyDown={key}
      />
      <div className="palette-list" id={`${id}-list`} role="listbox" aria-label="Actions">
        {found.map((action, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the keyboard is in the field above, which moves through the list.
          <div
            key={`${action.group} ${action.says}`}
            id={`${id}-${i}`}
            className="palette-row"
            role="option"
            tabIndex={-1}
            aria-selected={i === at}
            onPointerMove={() => setAt(i)}
            onClick={() => run(action)}
          >
            <span className="group-word">{action.group}</span>
            <span>{action.says}</span>
            <span>{action.keys[0] === undefined ? null : <Caps keys={action.keys[0]} />}</span>
          </div>
        ))}
      </div>
      <p className="soft" role="status">
        {found.length === 0
          ? 'No action has these words.'
          : `${found.length} actions. ↑ ↓ choose, Enter does it.`}
      </p>
    </div>
  );
}
