import { scaleLinear } from 'd3-scale';
import { type Placed as PlacedLabel, placeLabels, type Rect } from '../canvas/geometry/labels.ts';
import { type Shown, withUnit } from './figures.ts';
import { niceRange, type Tick, ticksOf } from './ticks.ts';

/** One point of a limit curve, SI. */
export interface LimitPoint {
  /** Grip, or mass in kg. */
  readonly at: number;
  /** Largest size of the obstacle that is crossed, m or rad; 0 when none is. */
  readonly limit: number;
  /** What stops it there, in a word or two: 'grip', 'tipping'; absent when nothing does up to the largest size tried. */
  readonly by?: string;
}

/** What a plot of limits shows. */
export interface LimitsCurve {
  /** 'highest step up' */
  readonly title: string;
  /** How sizes are shown, and figures along the axis. */
  readonly size: Shown;
  readonly along: Shown & { readonly title: string };
  /** In order of `at`. */
  readonly points: readonly LimitPoint[];
  /** Where the scenario is today: its grip or mass, and the size of the obstacle on its ground if there is one. */
  readonly today: { readonly at: number; readonly size?: number };
}

/** Room round the plot and its height, px. */
const PLOT = { left: 40, right: 12, top: 22, bottom: 34, height: 176 } as const;

/** How many labels the axes have, about. */
const LABELS = { sizes: 4, every: 64 } as const;

/** Width of a letter of the plot's words, px: 11 px sans, on the safe side. */
const LETTER = 6.2;

type Placed = Tick & { readonly pixel: number };

/** Where everything of a plot lies, px. */
export interface LimitsFrame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** First and last value along the axis, largest size of the other one, SI. */
  readonly from: number;
  readonly to: number;
  readonly most: number;
  x(at: number): number;
  y(size: number): number;
  /** The inverse of x. */
  at(x: number): number;
  readonly sizes: readonly Placed[];
  readonly places: readonly Placed[];
}

/** Lays a plot out: the whole curve, and the size on today's ground unless it is out of all proportion. */
export function limitsFrame({ points, today, size, along }: LimitsCurve, width: number): LimitsFrame {
  const { left, right, top, bottom, height } = PLOT;
  const from = points[0]?.at ?? 0;
  const to = points.at(-1)?.at ?? 1;
  const highest = Math.max(0, ...points.map((p) => p.limit));
  const asked = today.size !== undefined && today.size <= 2 * highest ? today.size : 0;
  const most = niceRange(0, Math.max(highest, asked) || 1 / size.factor, LABELS.sizes, size.factor, 0).to;
  const across = scaleLinear()
    .domain([from, to])
    .range([left, width - right]);
  const upward = scaleLinear()
    .domain([0, most])
    .range([height - bottom, top]);
  const count = Math.max(2, Math.round((width - left - right) / LABELS.every));
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    from,
    to,
    most,
    x: (at) => Number(across(at).toFixed(1)),
    y: (v) => Number(upward(v).toFixed(1)),
    at: (x) => across.invert(x),
    sizes: ticksOf(0, most, LABELS.sizes, size).map((t) => ({ ...t, pixel: upward(t.value) })),
    places: ticksOf(from, to, count, along).map((t) => ({ ...t, pixel: across(t.value) })),
  };
}

/** Limit at a place along the axis: straight between points, that of the end beyond them; 0 without points. */
export function limitAt(points: readonly LimitPoint[], at: number): number {
  const after = points.findIndex((p) => p.at >= at);
  const b = points[after];
  const a = points[after - 1];
  if (b === undefined) return points.at(-1)?.limit ?? 0;
  if (a === undefined || b.at === a.at) return b.limit;
  return a.limit + ((b.limit - a.limit) * (at - a.at)) / (b.at - a.at);
}

/** What stops the vehicle at a place: that of the nearest point. */
function stopperAt(points: readonly LimitPoint[], at: number): string | undefined {
  return points.reduce<LimitPoint | undefined>(
    (best, p) => (best === undefined || Math.abs(p.at - at) < Math.abs(best.at - at) ? p : best),
    undefined,
  )?.by;
}

/** A stretch of the curve on which the same thing stops the vehicle. */
export interface Segment {
  /** Empty where there is no room for it. */
  readonly words: string;
  /** Where the words go, px. */
  readonly x: number;
  readonly y: number;
  /** Where the stretch begins, px, and whether another one ends there. */
  readonly from: number;
  readonly edge: boolean;
}

/** The stretches of a curve by what stops the vehicle, each from halfway after the point before it. */
export function segmentsOf({ points }: LimitsCurve, frame: LimitsFrame): Segment[] {
  const starts = points.flatMap((p, i) => (i === 0 || p.by !== points[i - 1]?.by ? [i] : []));
  return starts.map((start, k) => {
    const next = starts[k + 1];
    const from = edgeBefore(points, start, frame);
    const to = next === undefined ? frame.x(points.at(-1)?.at ?? 0) : edgeBefore(points, next, frame);
    const words = points[start]?.by ?? 'not stopped';
    const x = (from + to) / 2;
    // Over the highest part of the curve that the words span, so that they never lie on it.
    const half = (words.length * LETTER) / 2;
    const over = [x - half, x, x + half].map((px) => frame.y(limitAt(points, frame.at(px))));
    const fits = to - from >= 2 * half;
    return { words: fits ? words : '', x, y: Math.max(10, Math.min(...over) - 7), from, edge: k > 0 };
  });
}

function edgeBefore(points: readonly LimitPoint[], i: number, frame: LimitsFrame): number {
  const at = points[i]?.at ?? 0;
  const before = points[i - 1];
  return frame.x(before === undefined ? at : (at + before.at) / 2);
}

/** Room for a line of words, px, and the size of a mark on the curve. */
const LINE_HEIGHT = 13;
const MARK = 7;

/**
 * Where the words about today's ground go, px: beside its mark, clear of the curve and of what is written along it.
 * Undefined where there is no room.
 */
export function todayWords(
  { points, today }: LimitsCurve,
  words: string,
  frame: LimitsFrame,
  segments: readonly Segment[],
): { readonly x: number; readonly y: number } | undefined {
  const x = frame.x(today.at);
  const y = frame.y(today.size ?? 0);
  const width = words.length * LETTER;
  const curve = Array.from({ length: Math.ceil((frame.width - frame.left - frame.right) / 4) }, (_, i) => {
    const px = frame.left + 4 * i;
    return { x: px - 3, y: frame.y(limitAt(points, frame.at(px))) - 3, width: 6, height: 6 };
  });
  const written = segments.map((s): Rect => {
    const wide = s.words.length * LETTER;
    return { x: s.x - wide / 2, y: s.y - LINE_HEIGHT + 3, width: wide, height: LINE_HEIGHT };
  });
  const line = { x: x - 1, y: frame.top, width: 2, height: frame.height };
  const places = [0, 12, 22, -12, -22].flatMap((dy) => [
    { x: x + MARK, y: y - LINE_HEIGHT / 2 + dy },
    { x: x - MARK - width, y: y - LINE_HEIGHT / 2 + dy },
  ]);
  const room = { x: frame.left, y: 0, width: frame.width - frame.left, height: frame.height - frame.bottom };
  const [placed] = placeLabels(
    [{ width, height: LINE_HEIGHT, places }],
    [...curve, ...written, line],
    room,
  ) as [PlacedLabel];
  return placed.place < 0 ? undefined : { x: placed.rect.x, y: placed.rect.y + LINE_HEIGHT - 3 };
}

/** What stops a vehicle, as words after 'limited by'. */
const stopperWords: Readonly<Record<string, string>> = {
  grip: 'grip',
  torque: 'torque',
  balance: 'balance: it finds no hold',
  tipping: 'tipping over',
  belly: 'its underside',
  stop: 'a stop',
  stand: 'standing: it does not hold itself there',
};

/** The answer as a sentence: what is crossed today, what stops it, and what today's ground asks. */
export function limitsInWords({ points, today, size, along }: LimitsCurve): string {
  if (points.length === 0) return 'Not worked out yet.';
  const place = `${along.title} ${withUnit(today.at, along)}`.trim();
  const limit = limitAt(points, today.at);
  const by = stopperAt(points, today.at);
  const ends = limit > 0 ? `up to ${withUnit(limit, size)}` : 'none at all';
  const stopped = by === undefined ? '; nothing stopped it there' : `, limited by ${stopperWords[by] ?? by}`;
  const says = `At ${place} it crosses ${ends}${stopped}.`;
  if (today.size === undefined) return says;
  const passes = today.size <= limit;
  return `${says} Today's ground has ${withUnit(today.size, size)}: ${passes ? 'it crosses that' : 'that is too much'}.`;
}
