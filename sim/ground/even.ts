import type { Ground } from './ground.ts';

/** Ground that rises evenly at an angle (rad, below a right angle) through station 0, a kilometre either way. */
export function evenSlope(angle: number): Ground {
  const far = 1e3;
  const rise = far * Math.tan(angle);
  return {
    x: Float64Array.of(-far, far),
    z: Float64Array.of(-rise, rise),
    count: 2,
    from: 0,
    to: 0,
    pieces: [],
  };
}
