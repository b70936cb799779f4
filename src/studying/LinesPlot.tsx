import { type PointerEvent, useMemo, useRef, useState } from 'react';
import type { Showing } from '../../shared/units.ts';
import { compare } from '../../sim/tuning/rank.ts';
import { useShowing } from '../app/workbench.ts';
import { type AxisOf, axesOf, type Brush, brushed, shareOn, within } from './brush.ts';
import type { ViewProps } from './view.ts';
import { entryWords, goalWords } from './words.ts';

const [across, down] = [420, 210] as const;
const room = { left: 50, right: 50, top: 40, bottom: 22 } as const;
/** Most lines that are drawn: the best ones. */
const mostLines = 400;
/** A shorter pull than this share of an axis is a click, which takes the brush away. */
const click = 0.03;

interface Props extends ViewProps {
  readonly onBrush: (brush: Brush) => void;
}

/** A figure on an axis for people. */
function axisWords(axis: AxisOf, figure: number, { about, findings }: ViewProps, showing: Showing): string {
  const { dial, goal = 0 } = axis;
  if (dial !== undefined)
    return entryWords(dial, dial.values.kind === 'list' ? Math.round(figure) : figure, showing);
  return goalWords(figure, about[goal]?.unit ?? '1', findings.study.goals[goal]?.text ?? '', showing);
}

const short = (name: string): string => (name.length > 22 ? `…${name.slice(-21)}` : name);

/** The same brushes by keyboard: two sliders for each axis. */
function Sliders({
  axes,
  view,
  onBrush,
}: {
  readonly axes: readonly AxisOf[];
  readonly view: Props;
  readonly onBrush: Props['onBrush'];
}) {
  const showing = useShowing();
  const { brush } = view;
  return (
    <details className="brush-sliders">
      <summary>Filter by sliders</summary>
      {axes.map((axis, a) => {
        const [low, high] = brush[a] ?? [0, 1];
        const said = (share: number) =>
          axisWords(axis, axis.from + share * (axis.to - axis.from), view, showing);
        return (
          <fieldset key={axis.name}>
            <legend>{axis.name}</legend>
            {([low, high] as const).map((share, side) => (
              <label key={side === 0 ? 'from' : 'to'}>
                <span>{side === 0 ? 'from' : 'to'}</span>
                <input
                  type="range"
                  min={0}
                  max={100}
                  value={Math.round(100 * share)}
                  aria-valuetext={said(share)}
                  onChange={({ currentTarget }) => {
                    const next = Number(currentTarget.value) / 100;
                    onBrush(
                      side === 0
                        ? brushed(brush, a, Math.min(next, high), high)
                        : brushed(brush, a, low, Math.max(next, low)),
                    );
                  }}
                />
                <b>{said(share)}</b>
              </label>
            ))}
          </fieldset>
        );
      })}
    </details>
  );
}

/** All numbers and goals side by side, a line for each design; a pull along an axis keeps those that pass there. */
export function LinesPlot(props: Props) {
  const { findings, grown, about, brush, picked, onPick, onBrush } = props;
  const showing = useShowing();
  const pull = useRef<{ axis: number; from: number } | undefined>(undefined);
  const [live, setLive] = useState<Brush>();
  const { study, samples } = findings;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is the same object while it grows.
  const axes = useMemo(
    () =>
      axesOf(
        study.dials,
        study.goals.map(({ text }, g) => ({ title: about[g]?.title ?? text })),
        samples,
      ),
    [study, about, samples, grown],
  );
  const at = live ?? brush;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same.
  const sorted = useMemo(
    () => [...samples].sort((a, b) => compare(study.goals, a, b)),
    [samples, study, grown],
  );
  const kept = sorted.filter((sample) => within(at, axes, sample));
  const drawn = kept.slice(0, mostLines);
  const px = (a: number) => room.left + (axes.length < 2 ? 0.5 : a / (axes.length - 1)) * across;
  const py = (share: number) => room.top + (1 - share) * down;
  const lineOf = (sample: (typeof samples)[number]): string =>
    axes
      .flatMap((axis, a) => {
        const figure = axis.read(sample);
        return figure === null ? [] : [`${px(a).toFixed(1)} ${py(shareOn(axis, figure)).toFixed(1)}`];
      })
      .join('L');
  const shareAt = (event: PointerEvent<SVGElement>): number => {
    const box = (event.currentTarget.ownerSVGElement as SVGSVGElement).getBoundingClientRect();
    const y = ((event.clientY - box.top) * (down + room.top + room.bottom)) / box.height;
    return Math.min(1, Math.max(0, 1 - (y - room.top) / down));
  };
  const end = (): void => {
    pull.current = undefined;
    if (live !== undefined) onBrush(live);
    setLive(undefined);
  };
  const holding = kept.filter(({ holds }) => holds).length;
  return (
    <figure className="study-field lines-plot">
      <svg
        role="img"
        aria-label={`${kept.length} of ${samples.length} designs over ${axes.map(({ name }) => name).join(', ')}; ${holding} of them hold all that is asked. The table lists them.`}
        viewBox={`0 0 ${across + room.left + room.right} ${down + room.top + room.bottom}`}
      >
        {[...drawn].reverse().map((sample) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: the table is the way by keyboard.
          <path
            key={sample.n}
            className={sample.holds ? 'design holds' : 'design'}
            d={`M${lineOf(sample)}`}
            onClick={() => onPick(sample)}
          />
        ))}
        {picked === undefined ? null : <path className="design picked-line" d={`M${lineOf(picked)}`} />}
        {axes.map((axis, a) => {
          const stretch = at[a];
          return (
            <g key={axis.name}>
              <path className="axis" d={`M${px(a)} ${room.top}v${down}`} />
              <text
                className="axis-name"
                x={a === 0 ? 2 : a === axes.length - 1 ? across + room.left + room.right - 2 : px(a)}
                y={a % 2 === 0 ? 10 : 24}
                textAnchor={a === 0 ? 'start' : a === axes.length - 1 ? 'end' : 'middle'}
              >
                {short(axis.name)}
              </text>
              <text x={px(a)} y={room.top - 4} textAnchor="middle">
                {axisWords(axis, axis.to, props, showing)}
              </text>
              <text x={px(a)} y={room.top + down + 14} textAnchor="middle">
                {axisWords(axis, axis.from, props, showing)}
              </text>
              {stretch === undefined ? null : (
                <rect
                  className="brush"
                  x={px(a) - 7}
                  y={py(stretch[1])}
                  width={14}
                  height={(stretch[1] - stretch[0]) * down}
                />
              )}
              {/* biome-ignore lint/a11y/noStaticElementInteractions: sliders below do the same by keyboard. */}
              <rect
                className="brush-field"
                x={px(a) - 9}
                y={room.top}
                width={18}
                height={down}
                onPointerDown={(event) => {
                  event.currentTarget.setPointerCapture(event.pointerId);
                  pull.current = { axis: a, from: shareAt(event) };
                }}
                onPointerMove={(event) => {
                  const { current } = pull;
                  if (current === undefined) return;
                  const now = shareAt(event);
                  setLive(
                    Math.abs(now - current.from) < click
                      ? brushed(brush, a, 0, 1)
                      : brushed(brush, a, current.from, now),
                  );
                }}
                onPointerUp={end}
                onDoubleClick={() => onBrush(brushed(brush, a, 0, 1))}
              />
            </g>
          );
        })}
      </svg>
      <figcaption className="soft">
        {kept.length} of {samples.length} designs
        {kept.length > mostLines ? `, the best ${mostLines} drawn` : ''}. Strong: all that is asked holds.
        Pull along an axis to keep what passes there, double click to let go. Goals are on the right.
      </figcaption>
      <Sliders axes={axes} view={props} onBrush={onBrush} />
      {Object.keys(brush).length === 0 ? null : (
        <button type="button" className="button small" onClick={() => onBrush({})}>
          Show all
        </button>
      )}
    </figure>
  );
}
