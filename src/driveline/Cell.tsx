import { memo } from 'react';
import { fittedName } from './layout.ts';
import { OVER_MARK, symbolOf } from './symbols.ts';
import type { TreePart } from './tree.ts';

/** Letters of a name per px of its width, 11 px sans, on the safe side. */
const LETTERS = 1 / 5.7;
/** A bar ends at this use: what is past its limit sticks out. */
export const BAR_TO = 1.25;

/** What a press or a key on a part asks for. */
export interface CellWishes {
  readonly down: (event: React.PointerEvent<SVGGElement>, index: number) => void;
  readonly key: (event: React.KeyboardEvent<SVGGElement>, index: number) => void;
  readonly about: (index: number | undefined) => void;
}

interface CellProps {
  readonly part: TreePart;
  /** Width with its words, px. */
  readonly width: number;
  readonly chosen: boolean;
  /** It is over this part that a drag would hang something on. */
  readonly wanted: boolean;
  readonly stop: boolean;
  /** What is wrong with it. */
  readonly broken: string | undefined;
  readonly hatch: string;
  readonly wishes: CellWishes;
  readonly keep: (index: number) => (element: SVGGElement | null) => void;
}

/** One part: its sign on a plate with the colour of its use, the figure, a bar with its worst, its name. Figures are put in from outside. */
export const Cell = memo(function Cell(props: CellProps) {
  const { part, width, chosen, wanted, stop, broken, hatch, wishes, keep } = props;
  const bar = Math.min(72, width - 10);
  return (
    <g
      ref={keep(part.index)}
      className="drive-part"
      data-chosen={chosen}
      data-wanted={wanted}
      data-broken={broken !== undefined}
    >
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing has no buttons of its own. */}
      <g
        className="drive-press"
        role="button"
        tabIndex={stop ? 0 : -1}
        aria-pressed={chosen}
        aria-label={part.name}
        onPointerDown={(event) => wishes.down(event, part.index)}
        onPointerEnter={() => wishes.about(part.index)}
        onPointerLeave={() => wishes.about(undefined)}
        onFocus={() => wishes.about(part.index)}
        onBlur={() => wishes.about(undefined)}
        onKeyDown={(event) => wishes.key(event, part.index)}
      >
        <rect className="drive-ground" x={2 - width / 2} y={-13} width={width - 4} height={55} rx={3} />
        <rect className="drive-plate" x={-12} y={-10} width={24} height={20} rx={3} />
        <rect
          className="drive-unknown"
          x={-12}
          y={-10}
          width={24}
          height={20}
          rx={3}
          fill={`url(#${hatch})`}
        />
        <path className="drive-symbol" d={symbolOf(part.kind, part.sort)} />
        <path className="drive-over" d={OVER_MARK} />
        <g transform={`translate(${-bar / 2} 13)`}>
          <rect className="drive-track" width={bar / BAR_TO} height={4} />
          <rect className="drive-now" height={4} width={bar} />
          <rect className="drive-worst" y={0.5} height={3} width={bar} />
          <path className="drive-limit" d={`M${bar / BAR_TO} -1.5v7`} />
        </g>
        {broken === undefined ? null : <path className="drive-wrong" d="M-16 -14L16 14M16 -14L-16 14" />}
      </g>
      {/* What is written is in the name of the button too, with more beside it. */}
      <g className="drive-words">
        <text className="drive-use" x={15} y={-2} />
        <text className="drive-name">
          {fittedName(part.name, Math.floor((width - 4) * LETTERS), 2).map((line, i) => (
            <tspan key={line} x={0} y={29 + 11 * i}>
              {line}
            </tspan>
          ))}
        </text>
      </g>
    </g>
  );
});
