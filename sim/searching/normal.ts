/** A number with the standard normal distribution from two in [0, 1). Source: G. Box and M. Muller (1958). */
export function normal(draw: () => number): number {
  const radius = Math.sqrt(-2 * Math.log(1 - draw()));
  return radius * Math.cos(2 * Math.PI * draw());
}

/** A number with the Cauchy distribution about a middle, by inversion. */
export const cauchy = (draw: () => number, middle: number, width: number): number =>
  middle + width * Math.tan(Math.PI * (draw() - 0.5));
