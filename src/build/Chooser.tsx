import { useEffect, useRef } from 'react';
import { pathText } from '../../shared/path.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Handle } from '../edits/edit.ts';

interface ChooserProps {
  readonly handles: readonly Handle[];
  readonly at: Spot;
  /** One of them, or none. */
  readonly onChoose: (handle: Handle | undefined) => void;
}

/** Handles that lie on each other, by name: which one is meant? */
export function Chooser({ handles, at, onChoose }: ChooserProps) {
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    list.current?.querySelector('button')?.focus();
  }, []);
  const step = (by: number): void => {
    const buttons = [...(list.current?.querySelectorAll('button') ?? [])];
    const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
    buttons[(now + by + buttons.length) % buttons.length]?.focus();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: it asks which one, it is no part of a form.
    <div
      className="chooser"
      ref={list}
      role="group"
      aria-label="Points that lie here"
      style={{ left: at.x + 16, top: at.y + 8 }}
      onBlur={({ currentTarget, relatedTarget }) => {
        if (!currentTarget.contains(relatedTarget)) onChoose(undefined);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onChoose(undefined);
        else if (event.key === 'ArrowDown') step(1);
        else if (event.key === 'ArrowUp') step(-1);
        else return;
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      <p className="soft">{handles.length} points lie here</p>
      {handles.map((handle) => (
        <button
          key={pathText(handle.path)}
          type="button"
          className="menu-item"
          onClick={() => onChoose(handle)}
        >
          {handle.label}
        </button>
      ))}
    </div>
  );
}
