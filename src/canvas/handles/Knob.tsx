import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { figure, type Shown, withUnit } from '../../charts/figures.ts';
import type { Handle, Limits } from './handle.ts';
import { type Holding, REACH } from './useHold.ts';

interface KnobProps {
  readonly handle: Handle;
  /** Where it is wanted, drawn. */
  readonly at: Vec2;
  readonly shown: Shown;
  /** Limits to speak of, where the handle has none of its own. */
  readonly reach: { readonly x: Limits; readonly z: Limits };
  readonly held: boolean;
  readonly stuck: boolean;
  readonly holding: Holding;
  /** Id of the words that say what keys do. */
  readonly help: string;
  readonly keep: (key: string) => (element: SVGGElement | null) => void;
  readonly onFocus: () => void;
  readonly onBlur: () => void;
}

/** Heads of the two arrows of an axis, px round the handle. */
const HEADS = {
  x: 'M12 -3.5L16.5 0L12 3.5M-12 -3.5L-16.5 0L-12 3.5',
  z: 'M-3.5 -12L0 -16.5L3.5 -12M-3.5 12L0 16.5L3.5 12',
} as const;

const AXES = [
  ['x', 'forward', 'horizontal'],
  ['z', 'up', 'vertical'],
] as const;

/** One handle: a ring that is dragged, and a slider for each of its two axes. */
export function Knob(props: KnobProps) {
  const { handle, at, shown, reach, held, stuck, holding, help, keep, onFocus, onBlur } = props;
  const limits = handle.limits ?? reach;
  const value = (v: number) => Number((v * shown.factor).toFixed(shown.decimals));
  return (
    // biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: a plain group of a drawing, no control.
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no fieldsets.
    <g
      ref={keep(handle.id)}
      className="handle"
      role="group"
      aria-label={handle.label}
      data-held={held}
      data-stuck={stuck}
    >
      <circle className="handle-target" r={REACH.fine} />
      <circle className="handle-halo" />
      <circle className="handle-ring" />
      {AXES.map(([axis, way, orientation]) => (
        <g
          key={axis}
          ref={keep(`${handle.id} ${axis}`)}
          className="handle-axis"
          role="slider"
          tabIndex={0}
          aria-label={`${handle.label}, ${way}`}
          aria-orientation={orientation}
          aria-valuemin={value(limits[axis].from)}
          aria-valuemax={value(limits[axis].to)}
          aria-valuenow={value(at[axis])}
          aria-valuetext={`${axis} ${withUnit(at[axis], shown)}${stuck ? ', cannot be there' : ''}`}
          aria-invalid={stuck}
          aria-describedby={help}
          data-value={figure(at[axis], shown)}
          onKeyDown={(event) => holding.key(event, handle.id)}
          onFocus={onFocus}
          onBlur={(event) => {
            const group = event.currentTarget.closest('.handle');
            if (group?.contains(event.relatedTarget) !== true) onBlur();
          }}
        >
          <path className="handle-heads-halo" d={HEADS[axis]} />
          <path className="handle-heads" d={HEADS[axis]} />
        </g>
      ))}
    </g>
  );
}
