import { type RefObject, useId, useMemo } from 'react';
import { Cell, type CellWishes } from './Cell.tsx';
import type { Layout, Plan } from './layout.ts';
import type { Tree } from './tree.ts';
import type { Hand } from './useHands.ts';

interface DiagramProps {
  readonly tree: Tree;
  readonly plan: Plan;
  readonly svg: RefObject<SVGSVGElement | null>;
  /** Index of the selected part, and of the one that the keyboard is on. */
  readonly chosen: number | undefined;
  readonly active: number;
  /** What is wrong with parts, by index. */
  readonly broken: ReadonlyMap<number, string>;
  readonly hand: Hand | undefined;
  readonly wishes: CellWishes;
  readonly keep: (index: number) => (element: SVGGElement | null) => void;
  readonly onMove: (event: React.PointerEvent<SVGSVGElement>) => void;
  readonly onUp: (event: React.PointerEvent<SVGSVGElement>) => void;
  readonly onLost: (event: React.PointerEvent<SVGSVGElement>) => void;
}

/** Every way between two parts, and from a part to an axle line. */
export interface Way {
  readonly from: number;
  readonly to: number;
  readonly wheel: boolean;
}

/** The ways of a drive line, in the order in which they are drawn. */
export function waysOf({ parts, wheels }: Tree): readonly Way[] {
  return parts.flatMap((part) => [
    ...part.outputs.map((to) => ({ from: part.index, to, wheel: false })),
    ...part.wheels.flatMap((index) => {
      const to = wheels.findIndex((wheel) => wheel.index === index);
      return to < 0 ? [] : [{ from: part.index, to, wheel: true }];
    }),
  ]);
}

/** The drive line as a drawing; places and figures are put in from outside, without React. */
export function Diagram(props: DiagramProps) {
  const { tree, plan, svg, chosen, active, broken, hand, wishes, keep, onMove, onUp, onLost } = props;
  const hatch = useId();
  const ways = useMemo(() => waysOf(tree), [tree]);
  const over = hand?.over;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no fieldsets.
    <svg
      ref={svg}
      className="drive-diagram"
      width={plan.width}
      height={plan.height}
      role="group"
      aria-label="Drive line from its sources, in the lowest row, up to the axle lines"
      data-holding={hand !== undefined}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={onLost}
      onLostPointerCapture={onLost}
    >
      <defs>
        <pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className="drive-hatch" d="M0 0V5" />
        </pattern>
      </defs>
      <g className="drive-guides">
        {tree.wheels.map(({ index }) => (
          <path key={index} />
        ))}
      </g>
      <g className="drive-leaders">
        {tree.parts.map(({ index }) => (
          <path key={index} />
        ))}
      </g>
      <g className="drive-ways">
        {ways.map(({ from, to, wheel }) => (
          <path key={`${from} ${wheel ? 'wheel' : 'part'} ${to}`} />
        ))}
      </g>
      <path className="drive-guide" />
      <g className="drive-wheels">
        {tree.wheels.map(({ index, name }, i) => (
          <g key={index} data-wanted={over !== undefined && 'wheel' in over && over.wheel === i}>
            <circle r={6.5} />
            <circle r={1.5} className="drive-hub" />
            <text x={11} y={4}>
              {name.length > 9 ? `${name.slice(0, 8)}…` : name}
            </text>
            <title>{name}</title>
          </g>
        ))}
      </g>
      {/* In the document's order, whatever row they are in: a part in hand must not be taken out of the page. */}
      {tree.parts.map((part) => (
        <Cell
          key={part.index}
          part={part}
          width={plan.cell}
          chosen={part.index === chosen}
          wanted={over !== undefined && 'part' in over && over.part === part.index}
          stop={part.index === active}
          broken={broken.get(part.index)}
          hatch={hatch}
          wishes={wishes}
          keep={keep}
        />
      ))}
    </svg>
  );
}

/** Everything of the drawing that moves with the picture. */
export interface Drawing {
  readonly svg: SVGSVGElement;
  readonly cells: ReadonlyMap<number, SVGGElement>;
  readonly layout: Layout;
}
