import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef } from 'react';
import type { Dial } from '../../sim/tuning/dial.ts';
import type { Sample } from '../../sim/tuning/sample.ts';
import { useShowing } from '../app/workbench.ts';
import { type Contour, mapChart } from '../canvas/map/chart.ts';
import type { Isoline } from '../canvas/map/isolines.ts';
import { pixelsOf } from '../canvas/map/pixels.ts';
import { palettes } from '../charts/palette.ts';
import { labelled, type SideOf, spreadOver } from './plane.ts';
import type { ViewProps } from './view.ts';
import { entryWords, goalWords, shownOf } from './words.ts';

/** Size of the field itself, in units of the drawing, and what its words need around it. */
const [across, down] = [420, 260] as const;
const room = { left: 84, right: 44, top: 10, bottom: 46 } as const;
const most = { x: 5, z: 6 } as const;

const isLoadShare = (measure: string): boolean => /loadshare$/i.test(measure);

const pathOf = (line: Isoline, at: (x: number, z: number) => readonly [number, number]): string => {
  const points: string[] = [];
  for (let i = 0; i + 1 < line.length; i += 2) {
    const [x, y] = at(line[i] as number, line[i + 1] as number);
    points.push(`${x.toFixed(1)} ${y.toFixed(1)}`);
  }
  return `M${points.join('L')}`;
};

/** The place of today's value on a side, between its places; undefined where it lies outside. */
function todayOn({ dial, entries, place }: SideOf): number | undefined {
  const { now, values, turns } = dial;
  if (now === null) return undefined;
  let at: number;
  if (values.kind !== 'list') at = place(now);
  else if (turns.kind === 'options') at = now;
  else {
    const list = values.values as readonly number[];
    const next = list.findIndex((value) => value >= now);
    if (next < 0 || (next === 0 && list[0] !== now)) return undefined;
    const [low, high] = [list[Math.max(0, next - 1)] as number, list[next] as number];
    at = next === 0 ? 0 : next - 1 + (now - low) / (high - low);
  }
  return at < -0.5 || at > entries.length - 0.5 ? undefined : at;
}

/** Half of the room that a figure of a contour takes, in units of the drawing. */
const figureRoom = { x: 26, y: 9 } as const;

/** A place on its line for the figure of each contour, where no other figure is; one that finds none is left out. */
function placedLevels(
  contours: readonly Contour[],
  at: (x: number, z: number) => readonly [number, number],
): readonly { readonly words: string; readonly x: number; readonly y: number }[] {
  const placed: { words: string; x: number; y: number }[] = [];
  for (const { words, lines } of contours) {
    const longest = lines.reduce<Isoline>((a, b) => (b.length > a.length ? b : a), []);
    const count = longest.length / 2;
    for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
      const i = Math.floor(share * count);
      const [x, y] = at(longest[2 * i] ?? 0, longest[2 * i + 1] ?? 0);
      const free = placed.every(
        (p) => Math.abs(p.x - x) > 2 * figureRoom.x || Math.abs(p.y - y) > 2 * figureRoom.y,
      );
      const inside = x > room.left + figureRoom.x && x < room.left + across - figureRoom.x;
      if (count < 4 || !free || !inside) continue;
      placed.push({ words, x, y });
      break;
    }
  }
  return placed;
}

interface Props extends ViewProps {
  readonly over: readonly [number, number];
}

/** The first goal over two numbers: bands, contours with their figures, and an outline round where all holds. */
export function FieldPlot({ findings, grown, unit, title, picked, look, onPick, over }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const showing = useShowing();
  const { study, samples, tally } = findings;
  const [goal] = study.goals;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is the same object while it grows.
  const spread = useMemo(
    () => spreadOver(samples, study.dials, over, study.goals),
    [samples, study, over, grown],
  );
  const chart = useMemo(() => {
    if (spread === undefined || spread.x.entries.length < 2 || spread.z.entries.length < 2) return undefined;
    const [columns, rows] = [spread.x.entries.length, spread.z.entries.length];
    const values = spread.cells.map((cell) => cell?.goals[0] ?? Number.NaN);
    const usual = Math.max(0, ...values.filter((value) => !Number.isNaN(value)).map(Math.abs));
    return mapChart(
      {
        body: 0,
        tiles: [
          {
            from: { x: 0, z: 0 },
            to: { x: across, z: down },
            columns,
            rows,
            values,
            holds: spread.cells.map((cell) => (cell?.holds === true ? 1 : 0)),
          },
        ],
        title,
        shown: shownOf(unit, usual, showing),
        scale: isLoadShare(goal?.text ?? '') ? 'share' : 'plain',
        criteria: true,
        done: 1,
      },
      palettes[look.theme],
    );
  }, [spread, unit, title, goal, showing, look.theme]);
  useEffect(() => {
    const draw = canvas.current?.getContext('2d');
    if (canvas.current === null || draw === null || draw === undefined || chart === undefined) return;
    const { width, height, data } = pixelsOf(chart, palettes[look.theme]);
    Object.assign(canvas.current, { width, height });
    draw.putImageData(new ImageData(data, width, height), 0, 0);
  }, [chart, look.theme]);
  if (spread === undefined) return null;
  const { x, z, cells } = spread;
  if (chart === undefined)
    return <p className="soft">The field needs two values of each number; so far there are fewer.</p>;
  const columns = x.entries.length;
  const at = (px: number, pz: number) => [room.left + px, room.top + down - pz] as const;
  const placed = (column: number, row: number) =>
    at((column / (columns - 1)) * across, (row / (z.entries.length - 1)) * down);
  const placeOf = ({ design }: Sample) =>
    placed(x.place(design[over[0]] as number), z.place(design[over[1]] as number));
  const [best] = tally.best;
  const today = [todayOn(x), todayOn(z)] as const;
  const cellAt = (column: number, row: number): Sample | undefined =>
    cells[
      Math.min(z.entries.length - 1, Math.max(0, row)) * columns + Math.min(columns - 1, Math.max(0, column))
    ];
  const pickAt = (event: PointerEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const scale = (across + room.left + room.right) / box.width;
    const px = (event.clientX - box.left) * scale - room.left;
    const pz = room.top + down - (event.clientY - box.top) * scale;
    const found = cellAt(
      Math.round((px / across) * (columns - 1)),
      Math.round((pz / down) * (z.entries.length - 1)),
    );
    if (found !== undefined) onPick(found);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const from = picked ?? best;
    if (from === undefined) return;
    if (picked === undefined) {
      onPick(from);
      return;
    }
    const column = Math.round(x.place(from.design[over[0]] as number)) + (step[0] as number);
    const row = Math.round(z.place(from.design[over[1]] as number)) + (step[1] as number);
    const found = cellAt(column, row);
    if (found !== undefined) onPick(found);
  };
  const words = (dial: Dial, entry: number) => entryWords(dial, entry, showing);
  const spoken = `Field of ${title.toLowerCase()} over ${x.dial.name} and ${z.dial.name}. ${tally.held} of ${tally.tried} designs hold.${
    best === undefined
      ? ''
      : ` Best at ${words(x.dial, best.design[over[0]] as number)}, ${words(z.dial, best.design[over[1]] as number)}: ${goalWords(best.goals[0] ?? null, unit, goal?.text ?? '', showing)}.`
  } Arrow keys go from design to design.`;
  return (
    <figure className="study-field">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing that is gone through by arrow keys. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the same. */}
      <div className="field-frame" role="group" aria-label={spoken} tabIndex={0} onKeyDown={onKeyDown}>
        <canvas ref={canvas} />
        <svg
          aria-hidden="true"
          viewBox={`0 0 ${across + room.left + room.right} ${down + room.top + room.bottom}`}
          onPointerDown={pickAt}
        >
          {chart.contours.flatMap(({ level, lines }) =>
            lines.map((line) => (
              <path key={`${level} ${line[0]} ${line[1]}`} className="contour" d={pathOf(line, at)} />
            )),
          )}
          {chart.region.map((line, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no names.
            <path key={i} className="zone" d={pathOf(line, at)} />
          ))}
          {placedLevels(chart.contours, at).map(({ words: text, x: lx, y: ly }) => (
            <text key={text} className="level" x={lx} y={ly + 4} textAnchor="middle">
              {text}
            </text>
          ))}
          <rect className="frame" x={room.left} y={room.top} width={across} height={down} />
          {labelled(columns, most.x).map((i) => {
            const [px] = placed(i, 0);
            return (
              <text key={i} x={px} y={room.top + down + 18} textAnchor="middle">
                {words(x.dial, x.entries[i] as number)}
              </text>
            );
          })}
          {labelled(z.entries.length, most.z).map((i) => {
            const [, py] = placed(0, i);
            return (
              <text key={i} x={room.left - 8} y={py + 4} textAnchor="end">
                {words(z.dial, z.entries[i] as number)}
              </text>
            );
          })}
          {today[0] === undefined || today[1] === undefined ? null : (
            <circle
              className="today"
              cx={placed(today[0], today[1])[0]}
              cy={placed(today[0], today[1])[1]}
              r={6}
            />
          )}
          {best === undefined ? null : (
            <circle className="best-dot" cx={placeOf(best)[0]} cy={placeOf(best)[1]} r={4.5} />
          )}
          {picked === undefined ? null : (
            <rect
              className="picked-mark"
              x={placeOf(picked)[0] - 8}
              y={placeOf(picked)[1] - 8}
              width={16}
              height={16}
            />
          )}
        </svg>
      </div>
      <figcaption className="soft">
        <b>{title}</b>. Across: {x.dial.name}. Up: {z.dial.name}. Ring: today; dot: best; square: picked;
        thick line: where all that is asked holds; hatched: no answer.
        {study.dials.length > 2 ? ' Each place shows the best of the other numbers.' : ''}
      </figcaption>
    </figure>
  );
}
