import { type RefObject, useState } from 'react';
import { Icon } from '../app/Icon.tsx';
import { useBench, useNotice, useSettings } from '../app/workbench.ts';
import { select } from '../store/selection.ts';
import { AddMenu } from './AddMenu.tsx';
import type { Ties } from './build.ts';
import { useGroundOn } from './ground.ts';
import { pitchOf } from './pitch.ts';

/** Pitches that builders ask for, besides any other length. */
const PITCHES = ['0.5 mm', '1 mm', '2.5 mm', '5 mm', '8 mm', '10 mm', '12.7 mm', '1/4 in'];

/** The pitch of the grid that points snap to; empty for none. */
function PitchField() {
  const { settings } = useBench();
  const pitch = useSettings((state) => state.pitch);
  const [draft, setDraft] = useState<string>();
  const wrong = draft !== undefined && draft.trim() !== '' && pitchOf(draft) === undefined;
  const take = (): void => {
    if (draft !== undefined && !wrong) settings.setState({ pitch: draft.trim() });
    setDraft(undefined);
  };
  return (
    <label className="pitch" title="Points snap to a grid of this pitch; empty for none">
      <span>Pitch</span>
      <input
        type="text"
        list="pitches"
        autoComplete="off"
        spellCheck={false}
        aria-label="Pitch of the grid"
        aria-invalid={wrong}
        placeholder="off"
        value={draft ?? pitch}
        onChange={({ currentTarget }) => setDraft(currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          else if (event.key === 'Escape') setDraft(undefined);
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      <datalist id="pitches">
        {PITCHES.map((each) => (
          <option key={each} value={each} />
        ))}
      </datalist>
    </label>
  );
}

/** Opens the card of the picture under the drawing. */
function PictureButton() {
  const { notices } = useBench();
  const open = useNotice((state) => state.picture);
  return (
    <button
      type="button"
      className="button"
      aria-pressed={open}
      title="A picture to draw over"
      onClick={() => notices.setState({ picture: !open })}
    >
      Picture
    </button>
  );
}

/** Changes the ground instead of the vehicle, and back. */
function GroundButton() {
  const { notices, selection } = useBench();
  const on = useGroundOn();
  return (
    <button
      type="button"
      className="button"
      aria-pressed={on}
      title="Change the ground instead of the vehicle"
      onClick={() => {
        select(selection, undefined);
        notices.setState({ ground: on ? undefined : { tool: 'points' }, picture: false });
      }}
    >
      Ground
    </button>
  );
}

interface BarProps {
  readonly addButton: RefObject<HTMLButtonElement | null>;
  readonly ties: Ties;
  readonly onTie: (tie: keyof Ties) => void;
  readonly onFit: () => void;
  readonly onZoom: (way: 'closer' | 'farther') => void;
  readonly onStart: () => void;
}

/** What one builds with: over the picture. */
export function Bar({ addButton, ties, onTie, onFit, onZoom, onStart }: BarProps) {
  const onGround = useGroundOn();
  return (
    <div className="build-bar" role="toolbar" aria-label="Building">
      <AddMenu button={addButton} />
      <button type="button" className="button" onClick={onStart} title="Begin another vehicle">
        New
      </button>
      {onGround ? null : (
        <>
          <button
            type="button"
            className="button"
            aria-pressed={ties.alone}
            title="A point moves without what hangs on it (O; or hold Alt)"
            onClick={() => onTie('alone')}
          >
            Move alone
          </button>
          <button
            type="button"
            className="button"
            aria-pressed={ties.holdRods}
            title="When one end of a rod is moved, what hangs at its other end makes way (R)"
            onClick={() => onTie('holdRods')}
          >
            Rods keep their length
          </button>
        </>
      )}
      <PitchField />
      <PictureButton />
      <GroundButton />
      <span className="build-gap" />
      <button
        type="button"
        className="button icon-only bare"
        aria-label="Vehicle"
        title="Vehicle (V)"
        onClick={onFit}
      >
        <Icon name="vehicle" />
      </button>
      <button
        type="button"
        className="button icon-only bare"
        aria-label="Farther"
        title="Farther (−)"
        onClick={() => onZoom('farther')}
      >
        <Icon name="minus" />
      </button>
      <button
        type="button"
        className="button icon-only bare"
        aria-label="Closer"
        title="Closer (+)"
        onClick={() => onZoom('closer')}
      >
        <Icon name="plus" />
      </button>
    </div>
  );
}
