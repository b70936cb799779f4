/*
 * Froude's rule: at the same gravity, a copy s times as long and m times as heavy does the same in √s times the time.
 * Every figure of a scenario then goes with m^a · s^(b + c/2), where its unit is kg^a · m^b · s^c.
 */
import type { Scenario } from '../../sim/scenario/schema.ts';

/** Powers of kg, m and s in a unit. */
type Dimension = readonly [mass: number, length: number, time: number];

const none: Dimension = [0, 0, 0];
const mass: Dimension = [1, 0, 0];
const length: Dimension = [0, 1, 0];
const time: Dimension = [0, 0, 1];
const speed: Dimension = [0, 1, -1];
const acceleration: Dimension = [0, 1, -2];
const inertia: Dimension = [1, 2, 0];
const force: Dimension = [1, 1, -2];
const torque: Dimension = [1, 2, -2];
const stiffness: Dimension = [1, 0, -2];
const damping: Dimension = [1, 0, -1];
const twistDamping: Dimension = [1, 2, -1];
const stress: Dimension = [1, -1, -2];
const perSpeed: Dimension = [0, -1, 1];

/** Units of figures that mean the same wherever they stand. */
const anywhere: Record<string, Dimension> = {
  version: none,
  gravity: acceleration,
  scale: none,
  mass,
  count: none,
  x: length,
  z: length,
  inertia,
  massPerWheel: mass,
  inertiaPerWheel: inertia,
  radius: length,
  width: length,
  stiffnessPerWheel: stiffness,
  loadPerWheel: force,
  grip: none,
  rolling: none,
  torquePerWheel: torque,
  speed,
  acceleration,
  diameter: length,
  shearModulus: stress,
  length,
  height: length,
  angle: none,
  station: length,
  start: length,
  until: length,
  time,
  frames: [0, 0, -1],
  substep: time,
};

/** Units that depend on the kind of the entry that they belong to. */
const byKind: Record<string, Record<string, Dimension>> = {
  'guided-axle': { bump: length, droop: length, lean: none, stopStiffness: stiffness },
  'link-axle': { bump: length, droop: length, stopStiffness: stiffness },
  arm: { bump: none, droop: none, stopStiffness: torque },
  'bogie-beam': { bump: none, droop: none, stopStiffness: torque },
  housing: { bump: none, droop: none, stopStiffness: torque },
  'linear-spring': { rate: stiffness, preload: force, freeAt: length },
  damper: { bump: damping, rebound: damping },
  'torsion-bar': { rate: torque, preload: torque, freeAt: none, damping: twistDamping },
};

/**
 * The scenario s times as long and m times as heavy.
 * @throws RangeError for a figure whose unit is not listed here
 */
export function froude(scenario: Scenario, s: number, m: number): Scenario {
  const factor = ([a, b, c]: Dimension) => m ** a * s ** (b + c / 2);
  const scaled = (value: unknown, key: string, kind: string): unknown => {
    if (typeof value === 'number') {
      const own = byKind[kind]?.[key] ?? (key === 'damping' ? perSpeed : anywhere[key]);
      if (!own) throw new RangeError(`no unit known for ${kind} ${key}`);
      return value * factor(own);
    }
    if (Array.isArray(value)) return value.map((part) => scaled(part, key, kind));
    if (typeof value !== 'object' || value === null) return value;
    const its = 'kind' in value && typeof value.kind === 'string' ? value.kind : kind;
    return Object.fromEntries(Object.entries(value).map(([k, part]) => [k, scaled(part, k, its)]));
  };
  return { ...(scaled({ ...scenario, criteria: [] }, '', '') as Scenario) };
}
