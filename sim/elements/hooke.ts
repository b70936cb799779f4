import type { ElementLaw } from './element.ts';
import { withinReach } from './reach.ts';

/** Figures of a straight-line spring, SI: N/m and m along a travel, N·m/rad and rad along a twist. */
export interface Hooke {
  /** c, above zero. */
  readonly rate: number;
  /** Effort with which it pushes back (along −x) in the drawn position; negative when it is stretched there. */
  readonly preload?: number | undefined;
  /** Coordinate at which it is free; stands in for the preload. */
  readonly freeAt?: number | undefined;
  /** True when it lies between seats and cannot pull. */
  readonly pushOnly: boolean;
  /** Viscous damping beside it, N·s/m or N·m·s/rad. */
  readonly damping: number;
}

/** Coordinate at which a spring is free: x₀ = −preload/c, for c·(0 − x₀) is the preload. */
export function freeCoordinate(spring: Omit<Hooke, 'pushOnly' | 'damping'>): number {
  return spring.freeAt ?? -(spring.preload ?? 0) / spring.rate;
}

/** Hooke's law: U = ½·c·(x − x₀)², effort −c·(x − x₀), and −d·v beside it. With `pushOnly` both spring terms end at x₀. */
export function hooke(spring: Hooke): ElementLaw {
  const c = spring.rate;
  const free = freeCoordinate(spring);
  const d = spring.damping;
  const loose = spring.pushOnly;
  const pressed = (x: number): number => {
    const by = withinReach(x) - free;
    return loose && by < 0 ? 0 : by;
  };
  return {
    memory: 0,
    energy: (x) => 0.5 * c * pressed(x) ** 2,
    spring: (x) => -c * pressed(x),
    loss: (_x, v) => -d * withinReach(v),
    stiffness: (x) => (loose && x < free ? 0 : c),
    damping: d,
    corners: loose ? [free] : [],
  };
}
