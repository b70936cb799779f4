import { type KeyboardEvent, memo } from 'react';
import type { Handle } from '../edits/edit.ts';
import { REACH } from './useHandling.ts';

interface KnobProps {
  readonly id: string;
  readonly label: string;
  readonly kind: Handle['kind'];
  /** It belongs to the selected entry. */
  readonly mine: boolean;
  readonly held: boolean;
  readonly stuck: boolean;
  /** Tab comes to it. */
  readonly stop: boolean;
  readonly keep: (key: string) => (element: SVGGElement | null) => void;
  readonly onKey: (event: KeyboardEvent<SVGGElement>) => void;
  readonly onFocus: () => void;
  readonly onBlur: () => void;
}

/** One handle: a ring for a point, a lozenge for an angle. Its place is set from outside, frame by frame. */
function PlainKnob({ id, label, kind, mine, held, stuck, stop, keep, onKey, onFocus, onBlur }: KnobProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no buttons.
    <g
      ref={keep(id)}
      className="knob"
      data-id={id}
      data-kind={kind}
      data-mine={mine}
      data-held={held}
      data-stuck={stuck}
      role="button"
      aria-label={label}
      aria-roledescription={kind === 'point' ? 'movable point' : 'turnable angle'}
      aria-describedby="build-handle-help"
      tabIndex={stop ? 0 : -1}
      onKeyDown={onKey}
      onFocus={onFocus}
      onBlur={onBlur}
    >
      <circle className="knob-target" r={REACH.fine} />
      {kind === 'point' ? (
        <>
          <circle className="knob-halo" />
          <circle className="knob-ring" />
        </>
      ) : (
        <>
          <path className="knob-halo" d="M0-6L6 0L0 6L-6 0Z" />
          <path className="knob-ring" d="M0-6L6 0L0 6L-6 0Z" />
        </>
      )}
    </g>
  );
}

/** Drawn again only when it looks another way: its place is not React's, and what it calls does not change with it. */
export const Knob = memo(PlainKnob, (a, b) =>
  (['id', 'label', 'kind', 'mine', 'held', 'stuck', 'stop', 'keep'] as const).every(
    (key) => a[key] === b[key],
  ),
);
