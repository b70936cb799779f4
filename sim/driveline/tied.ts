import type { Wheel } from '../mechanism/mechanism.ts';
import type { Driveline, DrivePart } from './driveline.ts';

/** Axle lines that a drive line ties together: no open differential and no freewheel stands between them. */
export interface Tied {
  /** Axle lines. */
  readonly lines: readonly number[];
  /** Wheel turn per turn of the part that they all hang on, per line. */
  readonly gears: readonly number[];
  /** Twist of line i in rad for 1 N·m at line j, against that part: shafts, and the line's own tyres. */
  readonly compliance: readonly Float64Array[];
  /** Torque in part p for 1 N·m at each line: parts that a wind-up loads. */
  readonly parts: readonly { readonly part: number; readonly gain: Float64Array }[];
  /** Torque at which a clutch on the way of a line slips, N·m at the line. */
  readonly slips: readonly number[];
}

/** Least stiffness of a tyre along the ground, N·m/rad: only so that nothing is divided by nothing. */
const stiffest = 1e-12;

/** Whether a part lets its branches turn at different speeds. */
const parted = ({ law, outputs, wheels }: DrivePart): boolean =>
  law.oneWay === true ||
  (law.split !== undefined && law.split.mode !== 'locked' && outputs.length + wheels.length > 1);

/** Groups of axle lines that are tied together, of two lines or more. */
export function tiedLines(driveline: Driveline, wheels: readonly Wheel[]): Tied[] {
  const { parts, lastPart } = driveline;
  const ways = lastPart.map((last) => tiedWay(parts, last));
  const tops = ways.map((way) => way.at(-1)?.part ?? -1);
  return [...new Set(tops)].flatMap((top) => {
    const lines = tops.flatMap((t, w) => (t === top && top >= 0 ? [w] : []));
    return lines.length < 2 ? [] : [tiedGroup(driveline, wheels, lines, ways)];
  });
}

/** A part on the way of a line, and its torque for 1 N·m at the line, without losses. */
interface Step {
  readonly part: number;
  readonly gain: number;
}

/** Parts from the one that turns a line up to the last that turns with it. */
function tiedWay(parts: readonly DrivePart[], last: number): Step[] {
  const way: Step[] = [];
  let gain = 1;
  for (let p = last; p >= 0; ) {
    const part = parts[p] as DrivePart;
    if (parted(part) || part.law.motor !== undefined) break;
    way.push({ part: p, gain });
    gain /= part.law.ratio;
    p = part.inputs[0] ?? -1;
  }
  return way;
}

function tiedGroup(
  { parts }: Driveline,
  wheels: readonly Wheel[],
  lines: readonly number[],
  ways: readonly Step[][],
): Tied {
  const shared = (p: number) => lines.every((w) => ways[w]?.some(({ part }) => part === p));
  // what all of them hang on turns with all of them, and no wind-up goes through it
  const own = [...new Set(lines.flatMap((w) => (ways[w] ?? []).map(({ part }) => part)))].filter(
    (p) => !shared(p),
  );
  const gainOf = (w: number, p: number) => ways[w]?.find(({ part }) => part === p)?.gain ?? 0;
  const rows = own.map((part) => ({ part, gain: Float64Array.from(lines, (w) => gainOf(w, part)) }));
  const compliance = lines.map((w, i) =>
    Float64Array.from(lines, (_, j) => {
      const tyre = (wheels[w] as Wheel).tyre.shearStiffness * (wheels[w] as Wheel).radius ** 2;
      return rows.reduce(
        (sum, { part, gain }) =>
          sum + (gain[i] as number) * (gain[j] as number) * softness(parts[part] as DrivePart),
        i === j ? 1 / Math.max(tyre, stiffest) : 0,
      );
    }),
  );
  // the torque that 1 N·m at a line puts on the first part that all hang on is its gear up to there
  const first = (w: number) => ways[w]?.find(({ part }) => shared(part));
  const slips = lines.map((w) =>
    Math.min(
      Number.POSITIVE_INFINITY,
      ...own.flatMap((p) => {
        const { law, count } = parts[p] as DrivePart;
        const gain = gainOf(w, p);
        return law.slipTorque === undefined || gain === 0 ? [] : [(law.slipTorque * count) / gain];
      }),
    ),
  );
  return { lines, gears: lines.map((w) => first(w)?.gain ?? 1), compliance, parts: rows, slips };
}

/** Twist for 1 N·m at a part's output, rad: all equal ones together; nothing where its stiffness is not known. */
const softness = ({ law, count }: DrivePart): number =>
  law.stiffness === undefined ? 0 : 1 / (law.stiffness * count);
