import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { figure, type Shown, travelShown } from '../../charts/figures.ts';
import type { Limits } from './handle.ts';

/** One press of an arrow key as a share of the smallest wheel's radius. */
const SHARE = 1 / 100;

/** What Shift and Alt make of a step. */
const COARSE = 10;
const FINE = 0.1;

/** One step of a handle, m: a hundredth of the smallest wheel's radius, as the nearest of 1, 2, 5 times a power of ten. */
export function stepOf(radius: number): number {
  const wanted = radius * SHARE;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const near = [1, 2, 5, 10].reduce((best, k) =>
    Math.abs(Math.log(k * power) - Math.log(wanted)) < Math.abs(Math.log(best * power) - Math.log(wanted))
      ? k
      : best,
  );
  return near * power;
}

const WAYS: Readonly<Record<string, Vec2>> = {
  ArrowRight: { x: 1, z: 0 },
  ArrowLeft: { x: -1, z: 0 },
  ArrowUp: { x: 0, z: 1 },
  ArrowDown: { x: 0, z: -1 },
};

/** How far a key moves a handle, m; undefined for keys that do not. Shift goes ten times as far, Alt a tenth. */
export function moveByKey(
  { key, shiftKey, altKey }: { key: string; shiftKey: boolean; altKey: boolean },
  step: number,
): Vec2 | undefined {
  const way = WAYS[key];
  if (way === undefined) return undefined;
  const length = step * (shiftKey ? COARSE : 1) * (altKey ? FINE : 1);
  return { x: way.x * length, z: way.z * length };
}

/**
 * Whole tenths, hundredths … of a millimetre from where it was, the finest that a drag is worth: a power of ten not above
 * half a step. So a drag leaves figures that can be read.
 */
export function onSteps(at: Vec2, from: Vec2, step: number): Vec2 {
  const fine = 10 ** Math.floor(Math.log10(step / 2));
  const round = (v: number, v0: number) => v0 + Math.round((v - v0) / fine) * fine;
  return { x: round(at.x, from.x), z: round(at.z, from.z) };
}

/** The nearest point within limits. */
export function withinLimits(at: Vec2, limits: { readonly x: Limits; readonly z: Limits } | undefined): Vec2 {
  if (limits === undefined) return at;
  const hold = (v: number, { from, to }: Limits) => Math.min(to, Math.max(from, v));
  return { x: hold(at.x, limits.x), z: hold(at.z, limits.z) };
}

/** How a handle's figures are shown on a vehicle with this smallest wheel. */
export function placeShown(radius: number): Shown {
  return travelShown(radius);
}

/** 'x 412.0 mm, z 95.0 mm' */
export function placeInWords({ x, z }: Vec2, shown: Shown): string {
  return `x ${figure(x, shown)}, z ${figure(z, shown)} ${shown.unit}`;
}

/** '+12.0' or '−3.0': a move along one axis, with its sign. */
export function moveInWords(by: number, shown: Shown): string {
  const text = figure(by, shown);
  return by > 0 && !/^0(\.0*)?$/.test(text) ? `+${text}` : text;
}
