import type { Wheel } from '../mechanism/mechanism.ts';
import type { Driveline, DrivePart } from './driveline.ts';

/** How fast everything turns, rad per metre that the vehicle goes forward. */
export interface Turns {
  /** At the output and the input of each part. */
  readonly out: Float64Array;
  readonly into: Float64Array;
  /** Axle lines. */
  readonly wheels: Float64Array;
}

/**
 * Speeds of all parts. A wheel turns by 1/r; a differential's input by the mean of its outputs, weighted with their
 * shares; what turns alike turns by the mean of what it drives, and drives it at that speed, so that wheels behind one
 * lock may have to slip. Source: kinematics of gear trains and differentials, texts on drivelines.
 */
export function turnsOf({ parts, lastPart }: Driveline, wheels: readonly Wheel[]): Turns {
  const n = parts.length;
  const rolling = Float64Array.from(wheels, (wheel) => 1 / wheel.radius);
  const wanted = new Float64Array(n).fill(Number.NaN);
  for (let p = n - 1; p >= 0; p--) wanted[p] = wantedAt(parts, p, wanted, rolling);
  const out = new Float64Array(n);
  const into = new Float64Array(n);
  for (let p = 0; p < n; p++) {
    const part = parts[p] as DrivePart;
    const by = part.inputs[0];
    const ratio = part.law.ratio;
    if (by === undefined) out[p] = finite(wanted[p] as number);
    else out[p] = branchTurn(parts[by] as DrivePart, by, ratio * (wanted[p] as number), out, wanted) / ratio;
    into[p] = (out[p] as number) * ratio;
  }
  matchMates(parts, out, into);
  const turned = lastPart.map((p, w) => {
    const own = rolling[w] as number;
    return p < 0 ? own : branchTurn(parts[p] as DrivePart, p, own, out, wanted);
  });
  return { out, into, wheels: Float64Array.from(turned) };
}

/** Sources that share a shaft turn with it: each further input gets the speed that the first one sets, up to its source. */
function matchMates(parts: readonly DrivePart[], out: Float64Array, into: Float64Array): void {
  const set = parts.map(() => false);
  for (let p = parts.length - 1; p >= 0; p--)
    (parts[p] as DrivePart).inputs.forEach((input, i) => {
      const mate = parts[input] as DrivePart;
      if ((i === 0 && !set[p]) || mate.outputs.length + mate.wheels.length > 1) return;
      out[input] = into[p] as number;
      into[input] = (into[p] as number) * mate.law.ratio;
      set[input] = true;
    });
}

/** What turns at the output of part `p` to let its branches roll; NaN where no wheel is below. */
function wantedAt(
  parts: readonly DrivePart[],
  p: number,
  wanted: Float64Array,
  rolling: Float64Array,
): number {
  const part = parts[p] as DrivePart;
  const branches = [
    ...part.outputs.map((o) => (wanted[o] as number) * (parts[o] as DrivePart).law.ratio),
    ...part.wheels.map((w) => rolling[w] as number),
  ];
  const known = branches.flatMap((speed, i) =>
    Number.isFinite(speed) ? [{ speed, share: part.law.split?.shares?.[i] ?? 1 }] : [],
  );
  const all = known.reduce((sum, { share }) => sum + share, 0);
  const total = known.reduce((sum, { speed, share }) => sum + speed * share, 0);
  return known.length === 0 ? Number.NaN : total / all;
}

/** Speed of a branch of a part: its own wish behind an open differential, the part's speed where they turn alike. */
function branchTurn(
  part: DrivePart,
  p: number,
  wish: number,
  out: Float64Array,
  wanted: Float64Array,
): number {
  const speed = out[p] as number;
  const split = part.law.split;
  if (split === undefined || split.mode === 'locked' || !Number.isFinite(wish)) return speed;
  const own = wanted[p] as number;
  return own > 0 ? (wish * speed) / own : speed;
}

const finite = (value: number): number => (Number.isFinite(value) ? value : 0);
