import { bristleEnergy, bristlePull, bristleStiffness, dragBristle, makeBristle } from './bristle.ts';
import type { ElementLaw } from './element.ts';
import { withinReach } from './reach.ts';

/**
 * Law of dry friction along a coordinate: nothing but one bristle.
 * @param limit effort at which it slides, N or N·m, not negative
 * @param breakaway elastic travel before it slides, m or rad, above zero
 */
export function dryFriction(limit: number, breakaway: number): ElementLaw {
  const bristle = makeBristle(limit, breakaway);
  const bent = (x: number, memory: Float64Array): number => withinReach(x) - (memory[0] as number);
  return {
    memory: 1,
    energy: (x, memory) => bristleEnergy(bristle, bent(x, memory)),
    spring: (x, memory) => -bristlePull(bristle, bent(x, memory)),
    loss: () => 0,
    stiffness: (x, memory) => bristleStiffness(bristle, bent(x, memory)),
    damping: 0,
    advance: (_from, to, memory) => dragBristle(bristle, withinReach(to), memory),
    rest: (x, memory) => {
      memory[0] = withinReach(x);
    },
    corners: [-breakaway, breakaway],
  };
}
