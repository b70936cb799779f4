import type { ShownDesign, StudyResults } from '../../tuning/results.ts';
import type { Sample } from '../../tuning/sample.ts';
import { sayNumber } from '../../tuning/summary.ts';
import { figure } from '../text/figures.ts';
import { ink } from './palette.ts';
import { bottomAxis, frame, inner, leftAxis, plotPage, scaleOver } from './plot.ts';
import { shortened } from './sheet.ts';
import { label, px, tag } from './svg.ts';

/** From orange, which is worse, to violet (C. Brewer, ColorBrewer 2.0, pair PuOr), as in maps. */
const ramp = ['#e66101', '#f28a35', '#fdb863', '#f7d8a8', '#d9d5e4', '#b2abd2', '#8873b0', '#5e3c99'];

/** The best first goal over the first two numbers; cells where all criteria hold have a dot. */
export function fieldSvg(results: StudyResults): string | undefined {
  const { field, goals, dials, best } = results;
  const [goal] = goals;
  const [x, z] = dials;
  if (field === null || goal === undefined || x === undefined || z === undefined) return undefined;
  const { columns, rows, values, holds } = field;
  const all = values.flat().filter((v) => v !== null);
  const [least, most] = [
    all.reduce((a, b) => Math.min(a, b), Infinity),
    all.reduce((a, b) => Math.max(a, b), -Infinity),
  ];
  const [wide, high] = [
    (inner.right - inner.left) / columns.length,
    (inner.bottom - inner.top) / rows.length,
  ];
  const colour = (value: number): string => {
    const band = most > least ? Math.min(7, Math.floor((8 * (value - least)) / (most - least))) : 7;
    return ramp[goal.want === 'more' ? band : 7 - band] ?? ink.off;
  };
  const cells = values.flatMap((row, r) =>
    row.flatMap((value, c) => {
      const [left, top] = [inner.left + c * wide, inner.bottom - (r + 1) * high];
      if (value === null) return [];
      const box = tag('rect', {
        x: left,
        y: top,
        width: wide,
        height: high,
        fill: colour(value),
        'shape-rendering': 'crispEdges',
      });
      const dot = tag('circle', {
        cx: left + wide / 2,
        cy: top + high / 2,
        r: Math.max(1, Math.min(4, wide / 5, high / 5)),
        fill: ink.text,
      });
      return holds[r]?.[c] === true ? [box, dot] : [box];
    }),
  );
  const every = (count: number, room: number) => Math.max(1, Math.ceil(count / room));
  const under = columns.flatMap(({ at, label: word }, c) =>
    c % every(columns.length, 8) > 0
      ? []
      : [
          label(
            inner.left + (c + 0.5) * wide,
            inner.bottom + 18,
            sayNumber({ value: word || at, unit: x.unit }),
            { 'text-anchor': 'middle', fill: ink.faint },
          ),
        ],
  );
  const beside = rows.flatMap(({ at, label: word }, r) =>
    r % every(rows.length, 12) > 0
      ? []
      : [
          label(
            inner.left - 8,
            inner.bottom - (r + 0.5) * high + 4,
            sayNumber({ value: word || at, unit: z.unit }),
            { 'text-anchor': 'end', fill: ink.faint },
          ),
        ],
  );
  const steps = all.length === 0 ? [] : most > least ? [7, 6, 5, 4, 3, 2, 1, 0] : [7];
  const legend = steps.flatMap((band, i) => {
    const value = least + ((most - least) * band) / 8;
    const y = inner.top + 20 * i;
    return [
      tag('rect', {
        x: inner.right + 24,
        y,
        width: 18,
        height: 18,
        fill: colour(value + 1e-9 * (most - least)),
      }),
      label(inner.right + 50, y + 13, `from ${figure(value, goal.unit)}`),
    ];
  });
  const more = dials.length > 2 ? ', best over the other numbers' : '';
  return plotPage(results.title, `${goal.title} over two numbers${more}`, [
    ...cells,
    tag('rect', {
      x: inner.left,
      y: inner.top,
      width: inner.right - inner.left,
      height: inner.bottom - inner.top,
      fill: 'none',
      stroke: ink.rule,
    }),
    ...under,
    ...beside,
    label((inner.left + inner.right) / 2, inner.bottom + 44, x.name, { 'text-anchor': 'middle' }),
    label(30, inner.top - 8, z.name),
    ...legend,
    label(inner.right + 24, inner.top + 20 * steps.length + 20, 'dot: all criteria hold'),
    ...(best.length === 0
      ? []
      : [label(inner.right + 24, inner.top + 20 * steps.length + 40, 'white: not tried, or')]),
    ...(best.length === 0
      ? []
      : [label(inner.right + 24, inner.top + 20 * steps.length + 56, 'nothing to measure')]),
  ]);
}

/** Two goals against each other: all samples that have both, the front, today's design. */
export function frontSvg(results: StudyResults, samples: readonly Sample[]): string | undefined {
  const [first, second] = results.goals;
  if (first === undefined || second === undefined) return undefined;
  const both = ({ goals }: Pick<ShownDesign, 'goals'>): readonly [number, number][] => {
    const [a = null, b = null] = goals;
    return a === null || b === null ? [] : [[a, b]];
  };
  const dots = samples.flatMap(({ goals, holds }) => both({ goals }).map((at) => ({ at, holds })));
  const front = results.front.flatMap(both);
  const today = both(results.today);
  const everything = [...dots.map(({ at }) => at), ...front, ...today];
  const x = scaleOver(
    everything.map(([a]) => a),
    [inner.left, inner.right],
  );
  const y = scaleOver(
    everything.map(([, b]) => b),
    [inner.bottom, inner.top],
  );
  const line = front.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${px(x(a))} ${px(y(b))}`).join('');
  const legend = ['filled: all criteria hold', 'hollow: not all hold', 'line: front'].map((text, i) =>
    label(inner.right + 24, inner.top + 20 * i + 12, text),
  );
  return plotPage(
    results.title,
    `Wanted: ${first.want} ${first.title.toLowerCase()}, ${second.want} ${second.title.toLowerCase()}`,
    [
      ...dots.map(({ at: [a, b], holds }) =>
        tag('circle', {
          cx: x(a),
          cy: y(b),
          r: 2.5,
          fill: holds ? '#8873b0' : 'none',
          stroke: holds ? '#8873b0' : '#f28a35',
        }),
      ),
      ...(line === '' ? [] : [tag('path', { d: line, fill: 'none', stroke: ink.text, 'stroke-width': 1.5 })]),
      ...front.map(([a, b]) => tag('circle', { cx: x(a), cy: y(b), r: 4, fill: ink.text })),
      ...today.flatMap(([a, b]) => [
        tag('path', {
          d: `M${px(x(a) - 7)} ${px(y(b))}h14M${px(x(a))} ${px(y(b) - 7)}v14`,
          stroke: ink.text,
          'stroke-width': 2,
        }),
        label(x(a) + 10, y(b) - 8, 'today'),
      ]),
      ...bottomAxis(x, first.unit, first.title, inner.bottom),
      ...leftAxis(y, second.unit, second.title),
      ...legend,
    ],
  );
}

/** How far the mean of the first goal goes with each number alone, the widest first. */
export function tornadoSvg(results: StudyResults): string | undefined {
  const [goal] = results.goals;
  const rows = results.dials
    .flatMap(({ name, unit, levels }) => {
      const sorted = [...levels].sort((a, b) => a.mean - b.mean);
      const [low, high] = [sorted[0], sorted.at(-1)];
      return low === undefined || high === undefined || levels.length < 2 ? [] : [{ name, unit, low, high }];
    })
    .sort((a, b) => b.high.mean - b.low.mean - (a.high.mean - a.low.mean));
  if (goal === undefined || rows.length === 0) return undefined;
  const x = scaleOver(
    rows.flatMap(({ low, high }) => [low.mean, high.mean]),
    [inner.left + 130, inner.right + 90],
  );
  const high = frame.top + rows.length * 34 + frame.bottom;
  const bottom = high - frame.bottom;
  const bars = rows.flatMap(({ name, unit, low, high: top }, i) => {
    const y = frame.top + 34 * i;
    const word = (level: typeof low) => sayNumber({ value: level.label || level.at, unit });
    return [
      label(30, y + 18, shortened(name, 30)),
      tag('rect', {
        x: x(low.mean),
        y: y + 4,
        width: Math.max(1, x(top.mean) - x(low.mean)),
        height: 20,
        fill: '#b2abd2',
      }),
      label(x(low.mean) - 6, y + 18, word(low), { 'text-anchor': 'end', fill: ink.faint }),
      label(x(top.mean) + 6, y + 18, word(top), { fill: ink.faint }),
    ];
  });
  const today = results.today.goals[0] ?? null;
  const [from = 0, to = 0] = x.domain();
  const mark =
    today === null || today < from || today > to
      ? []
      : [
          tag('path', {
            d: `M${px(x(today))} ${px(frame.top)}V${px(bottom)}`,
            stroke: ink.text,
            'stroke-dasharray': '4 3',
          }),
          label(x(today), frame.top - 6, 'today', { 'text-anchor': 'middle' }),
        ];
  return plotPage(
    results.title,
    `${goal.title}: its mean from the value of each number where it is least to where it is greatest`,
    [...bars, ...mark, ...bottomAxis(x, goal.unit, goal.title, bottom)],
    high,
  );
}
