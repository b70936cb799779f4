/**
 * Torque about the king-pin that turns a standing wheel, N·m: M = μ·W·√(d² + (a/3)²), a the side of a square contact, m,
 * d the king-pin offset at the ground, m. For contacts whose length is known.
 * Source: Automotive Chassis Engineering, section on steering systems, example E2.1 (page 82).
 */
export const scrubOfSquare = (friction: number, load: number, offset: number, side: number): number =>
  friction * load * Math.hypot(offset, side / 3);

/**
 * The same for a round contact as wide as the tyre: M = μ·W·√(B²/8 + e²). Needs the width B only.
 * Source: handbook formula, from memory; for e = 0 the exact integral over a circle is ⅔·μ·W·B/2, 6 % less.
 */
export const scrubOfRound = (friction: number, load: number, offset: number, width: number): number =>
  friction * load * Math.sqrt(width ** 2 / 8 + offset ** 2);

/**
 * Torque with which a leaning king-pin turns a wheel back because steering lifts the vehicle, N·m:
 * M = W·d·sin λ·cos λ·sin δ, λ its inclination, δ the steering angle, rad. Source: the same example as `scrubOfSquare`.
 */
export const jackingOf = (load: number, offset: number, inclination: number, angle: number): number =>
  load * offset * Math.sin(inclination) * Math.cos(inclination) * Math.sin(angle);

/** Length of the contact of a tyre that gives way by `depth`: the chord 2·√(2·r·δ − δ²), m. Source: geometry. */
export const contactLength = (radius: number, depth: number): number =>
  2 * Math.sqrt(Math.max(0, 2 * radius * depth - depth * depth));
