import { type KeyboardEvent, type PointerEvent, useMemo } from 'react';
import { figureOf } from '../../sim/tuning/dial.ts';
import type { Sample } from '../../sim/tuning/sample.ts';
import { useShowing } from '../app/workbench.ts';
import { ticksOf } from '../charts/ticks.ts';
import { labelled, lineOver } from './plane.ts';
import type { ViewProps } from './view.ts';
import { entryWords, goalWords, shownOf } from './words.ts';

const [across, down] = [420, 230] as const;
const room = { left: 64, right: 40, top: 10, bottom: 42 } as const;

/** The first goal over the one number that varies; grounded where all that is asked holds. */
export function LinePlot({ findings, grown, unit, title, picked, onPick }: ViewProps) {
  const showing = useShowing();
  const { study, samples, tally, today } = findings;
  const [dial] = study.dials;
  const [goal] = study.goals;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is the same object while it grows.
  const line = useMemo(
    () => (dial === undefined ? [] : lineOver(samples, dial, 0, study.goals)),
    [samples, dial, study, grown],
  );
  const values = line.flatMap(({ goals }) => (goals[0] === null || goals[0] === undefined ? [] : [goals[0]]));
  if (dial === undefined || line.length < 2 || values.length === 0)
    return <p className="soft">Nothing to draw yet: fewer than two designs get across.</p>;
  const figures = line.map(({ design }) => figureOf(dial, design[0] as number));
  const [least, greatest] = [Math.min(...figures), Math.max(...figures)];
  const all =
    today?.goals[0] === null || today?.goals[0] === undefined ? values : [...values, today.goals[0]];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const span = high - low || Math.abs(high) || 1;
  const [bottom, top] = [low - 0.06 * span, high + 0.06 * span];
  const px = (figure: number) => room.left + ((figure - least) / (greatest - least || 1)) * across;
  const py = (value: number) => room.top + (1 - (value - bottom) / (top - bottom)) * down;
  const placeOf = (sample: Sample) => px(figureOf(dial, sample.design[0] as number));
  const shown = shownOf(unit, Math.max(Math.abs(low), Math.abs(high)), showing);
  const ticks = ticksOf(bottom, top, 5, shown);
  const [best] = tally.best;
  let drawn = '';
  let broken = true;
  for (const sample of line) {
    const value = sample.goals[0];
    if (value === null || value === undefined) broken = true;
    else {
      drawn += `${broken ? 'M' : 'L'}${placeOf(sample).toFixed(1)} ${py(value).toFixed(1)}`;
      broken = false;
    }
  }
  const half = across / Math.max(1, line.length - 1) / 2;
  const nearest = (x: number): Sample | undefined =>
    line.reduce<Sample | undefined>(
      (a, b) => (a === undefined || Math.abs(placeOf(b) - x) < Math.abs(placeOf(a) - x) ? b : a),
      undefined,
    );
  const pickAt = (event: PointerEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const found = nearest(((event.clientX - box.left) * (across + room.left + room.right)) / box.width);
    if (found !== undefined) onPick(found);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const from = picked ?? best;
    if (step === undefined || from === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const next = picked === undefined ? from : line[line.findIndex(({ n }) => n === from.n) + step];
    if (next !== undefined) onPick(next);
  };
  const { now } = dial;
  const say = (value: number | null | undefined) => goalWords(value ?? null, unit, goal?.text ?? '', showing);
  const spoken = `${title} over ${dial.name}. ${tally.held} of ${tally.tried} designs hold.${
    best === undefined
      ? ''
      : ` Best at ${entryWords(dial, best.design[0] as number, showing)}: ${say(best.goals[0])}.`
  } Arrow keys go from design to design.`;
  return (
    <figure className="study-field">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing that is gone through by arrow keys. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the same. */}
      <div className="field-frame" role="group" aria-label={spoken} tabIndex={0} onKeyDown={onKeyDown}>
        <svg
          aria-hidden="true"
          viewBox={`0 0 ${across + room.left + room.right} ${down + room.top + room.bottom}`}
          onPointerDown={pickAt}
        >
          {line
            .filter(({ holds }) => holds)
            .map((sample) => {
              const from = Math.max(room.left, placeOf(sample) - half);
              const to = Math.min(room.left + across, placeOf(sample) + half);
              return (
                <rect
                  key={sample.n}
                  className="holding"
                  x={from}
                  y={room.top}
                  width={to - from}
                  height={down}
                />
              );
            })}
          {ticks.map(({ value, label }) => (
            <g key={value}>
              <path className="tick" d={`M${room.left} ${py(value)}h${across}`} />
              <text x={room.left - 8} y={py(value) + 4} textAnchor="end">
                {label} {shown.unit}
              </text>
            </g>
          ))}
          <path className="line" d={drawn} />
          {line.map((sample) =>
            sample.goals[0] === null || sample.goals[0] === undefined ? (
              <path
                key={sample.n}
                className="no-answer"
                d={`M${placeOf(sample) - 3} ${room.top + down - 3}l6 -6m0 6l-6 -6`}
              />
            ) : (
              <circle
                key={sample.n}
                className="sample-dot"
                cx={placeOf(sample)}
                cy={py(sample.goals[0])}
                r={2.5}
              />
            ),
          )}
          <rect className="frame" x={room.left} y={room.top} width={across} height={down} />
          {labelled(line.length, 5).map((i) => (
            <text key={i} x={px(figures[i] as number)} y={room.top + down + 18} textAnchor="middle">
              {entryWords(dial, line[i]?.design[0] as number, showing)}
            </text>
          ))}
          {now === null ||
          today?.goals[0] === null ||
          today?.goals[0] === undefined ||
          now < least ||
          now > greatest ? null : (
            <circle className="today" cx={px(now)} cy={py(today.goals[0])} r={6} />
          )}
          {best?.goals[0] === null || best?.goals[0] === undefined ? null : (
            <circle className="best-dot" cx={placeOf(best)} cy={py(best.goals[0])} r={4.5} />
          )}
          {picked === undefined ? null : (
            <path className="picked-mark" d={`M${placeOf(picked)} ${room.top}v${down}`} />
          )}
        </svg>
      </div>
      <figcaption className="soft">
        <b>{title}</b> over {dial.name}. Ring: today; dot: best; tinted: where all that is asked holds; cross:
        no answer.
      </figcaption>
    </figure>
  );
}
