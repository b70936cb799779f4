import type { Json } from '../documents/json.ts';
import { roundFigure } from './figures.ts';

/** What the figures of a wheel follow from, SI: its radius, the load on it, its mass. */
export interface WheelSize {
  readonly radius: number;
  readonly load: number;
  readonly mass: number;
}

/** A tyre's share of its radius that its load presses in. Common practice, no source. */
const PRESSED = 1 / 12;

/** Figures of an axle line of two wheels: all but name, carrier and hub. */
export function wheelFigures({ radius, load, mass }: WheelSize): { readonly [key: string]: Json } {
  return {
    radius: roundFigure(radius, 'length', 4),
    width: roundFigure(0.75 * radius, 'length'),
    count: 2,
    massPerWheel: roundFigure(mass, 'mass'),
    tyre: {
      stiffnessPerWheel: roundFigure(load / (PRESSED * radius), 'stiffness'),
      damping: 0.8,
      grip: 0.8,
      rolling: 0.02,
    },
  };
}
