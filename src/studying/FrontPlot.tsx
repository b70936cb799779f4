import { type KeyboardEvent, useMemo } from 'react';
import type { Sample } from '../../sim/tuning/sample.ts';
import { useShowing } from '../app/workbench.ts';
import { ticksOf } from '../charts/ticks.ts';
import type { ViewProps } from './view.ts';
import { goalWords, shownOf } from './words.ts';

const [across, down] = [400, 220] as const;
const room = { left: 76, right: 44, top: 10, bottom: 42 } as const;
/** Most samples behind the front. */
const mostDots = 2000;

interface Place {
  readonly sample: Sample;
  readonly x: number;
  readonly y: number;
}

const placeIn = (sample: Pick<Sample, 'goals'>): readonly [number, number] | undefined => {
  const [x, y] = sample.goals;
  return x === null || x === undefined || y === null || y === undefined ? undefined : [x, y];
};

/** Two goals against each other: all designs, the front that none beats in both, and today's design. */
export function FrontPlot({ findings, grown, about, picked, onPick }: ViewProps) {
  const showing = useShowing();
  const { study, tally, today } = findings;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the tally is the same object while it grows.
  const places = useMemo(
    () =>
      tally.shown.slice(0, mostDots).flatMap((sample): Place[] => {
        const at = placeIn(sample);
        return at === undefined ? [] : [{ sample, x: at[0], y: at[1] }];
      }),
    [tally, grown],
  );
  const front = tally.front.samples.flatMap((sample): Place[] => {
    const at = placeIn(sample);
    return at === undefined ? [] : [{ sample, x: at[0], y: at[1] }];
  });
  front.sort((a, b) => a.x - b.x);
  const now = today === undefined ? undefined : placeIn(today);
  if (places.length === 0) return <p className="soft">No design has both goals yet.</p>;
  const span = (figures: readonly number[]): readonly [number, number] => {
    const [low, high] = [Math.min(...figures), Math.max(...figures)];
    const more = 0.06 * (high - low || Math.abs(high) || 1);
    return [low - more, high + more];
  };
  const [left, right] = span([...places.map(({ x }) => x), ...(now === undefined ? [] : [now[0]])]);
  const [bottom, top] = span([...places.map(({ y }) => y), ...(now === undefined ? [] : [now[1]])]);
  const px = (x: number) => room.left + ((x - left) / (right - left)) * across;
  const py = (y: number) => room.top + (1 - (y - bottom) / (top - bottom)) * down;
  const unit = (g: number) => about[g]?.unit ?? '1';
  const title = (g: number) => about[g]?.title ?? study.goals[g]?.text ?? '';
  const shown = [
    shownOf(unit(0), Math.max(Math.abs(left), Math.abs(right)), showing),
    shownOf(unit(1), Math.max(Math.abs(bottom), Math.abs(top)), showing),
  ] as const;
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (step === undefined || front.length === 0) return;
    event.preventDefault();
    event.stopPropagation();
    const from = front.findIndex(({ sample }) => sample.n === picked?.n);
    const next = front[from < 0 ? 0 : from + step];
    if (next !== undefined) onPick(next.sample);
  };
  const say = (g: number, value: number) => goalWords(value, unit(g), study.goals[g]?.text ?? '', showing);
  const [first, last] = [front[0], front.at(-1)];
  const spoken = `${title(0)} against ${title(1)}. ${front.length} designs hold and are beaten in both goals by none${
    first === undefined || last === undefined
      ? ''
      : `, from ${say(0, first.x)} and ${say(1, first.y)} to ${say(0, last.x)} and ${say(1, last.y)}`
  }. Arrow keys go along them.`;
  const at = picked === undefined ? undefined : placeIn(picked);
  return (
    <figure className="study-field">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing that is gone through by arrow keys. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the same. */}
      <div className="field-frame" role="group" aria-label={spoken} tabIndex={0} onKeyDown={onKeyDown}>
        <svg
          aria-hidden="true"
          viewBox={`0 0 ${across + room.left + room.right} ${down + room.top + room.bottom}`}
        >
          {ticksOf(bottom, top, 5, shown[1]).map(({ value, label }) => (
            <g key={value}>
              <path className="tick" d={`M${room.left} ${py(value)}h${across}`} />
              <text x={room.left - 8} y={py(value) + 4} textAnchor="end">
                {label} {shown[1].unit}
              </text>
            </g>
          ))}
          {ticksOf(left, right, 4, shown[0]).map(({ value, label }) => (
            <g key={value}>
              <path className="tick" d={`M${px(value)} ${room.top}v${down}`} />
              <text x={px(value)} y={room.top + down + 18} textAnchor="middle">
                {label} {shown[0].unit}
              </text>
            </g>
          ))}
          {places.map(({ sample, x, y }) => (
            // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys and the table are the way by keyboard.
            <circle
              key={sample.n}
              className={sample.holds ? 'sample-dot' : 'sample-dot open'}
              cx={px(x)}
              cy={py(y)}
              r={3}
              onClick={() => onPick(sample)}
            />
          ))}
          <path
            className="front-line"
            d={front.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${px(x)} ${py(y)}`).join('')}
          />
          {front.map(({ sample, x, y }) => (
            // biome-ignore lint/a11y/noStaticElementInteractions: the same.
            <circle
              key={sample.n}
              className="best-dot"
              cx={px(x)}
              cy={py(y)}
              r={4.5}
              onClick={() => onPick(sample)}
            />
          ))}
          <rect className="frame" x={room.left} y={room.top} width={across} height={down} />
          {now === undefined ? null : <circle className="today" cx={px(now[0])} cy={py(now[1])} r={6} />}
          {at === undefined ? null : (
            <rect className="picked-mark" x={px(at[0]) - 8} y={py(at[1]) - 8} width={16} height={16} />
          )}
        </svg>
      </div>
      <figcaption className="soft">
        Across: {title(0)} ({study.goals[0]?.want} is better). Up: {title(1)} ({study.goals[1]?.want} is
        better). Joined dots: none beats them in both; open: something asked for does not hold; ring: today.
      </figcaption>
    </figure>
  );
}
