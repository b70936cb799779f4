import { type KeyboardEvent, memo } from 'react';

interface KnobProps {
  readonly id: string;
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly kind: 'point' | 'size';
  /** It belongs to the selected piece. */
  readonly mine: boolean;
  readonly held: boolean;
  readonly stuck: boolean;
  /** Tab comes to it. */
  readonly stop: boolean;
  readonly onKey: (id: string, event: KeyboardEvent<SVGGElement>) => void;
  readonly onFocus: (id: string) => void;
  readonly onBlur: () => void;
}

/** A handle of the ground: a ring for a point, a lozenge for a size. */
export const GroundKnob = memo(function GroundKnob(props: KnobProps) {
  const { id, label, x, y, kind, mine, held, stuck, stop, onKey, onFocus, onBlur } = props;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no buttons.
    <g
      className="knob"
      data-id={id}
      data-kind={kind}
      data-mine={mine}
      data-held={held}
      data-stuck={stuck}
      transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}
      role="button"
      aria-label={label}
      aria-roledescription={kind === 'point' ? 'movable point' : 'size that can be pulled'}
      aria-describedby="ground-handle-help"
      tabIndex={stop ? 0 : -1}
      onKeyDown={(event) => onKey(id, event)}
      onFocus={() => onFocus(id)}
      onBlur={onBlur}
    >
      <circle className="knob-target" r={14} />
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
});
