import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import type { ElementLaw } from './element.ts';
import { withinReach } from './reach.ts';

/**
 * A stop at the end of the way: nothing up to its face, then a spring, with a damper beside it.
 *
 * With y how far the stop is pressed (m or rad): U = ½·c·y², spring effort c·y away from the stop, damper effort
 * d·|v| against the motion but never more than c·y. The limit keeps the push continuous at first touch and lets it
 * end at zero, never as a pull, when the stop is left. Hunt & Crossley, "Coefficient of restitution interpreted as
 * damping in vibroimpact" (J. Appl. Mech. 42, 1975) ask for both; the limit itself is a definition of our own.
 *
 * @param side `bump`: pressed when x > clearance; `droop`: pressed when x < −clearance
 * @param clearance way from the drawn position to the face, m or rad, not negative
 * @param rate c, N/m or N·m/rad, not negative
 * @param damping d, N·s/m or N·m·s/rad, not negative
 */
export function makeStop(
  side: 'bump' | 'droop',
  clearance: number,
  rate: number,
  damping: number,
): ElementLaw {
  const towards = side === 'bump' ? 1 : -1;
  const pressed = (x: number): number => Math.max(0, towards * withinReach(x) - clearance);
  return {
    memory: 0,
    energy: (x) => 0.5 * rate * pressed(x) ** 2,
    spring: (x) => -towards * rate * pressed(x),
    loss: (x, v) => {
      const most = rate * pressed(x);
      const viscous = -damping * withinReach(v);
      return Math.max(-most, Math.min(most, viscous));
    },
    stiffness: (x) => (towards * x > clearance ? rate : 0),
    damping,
    corners: [towards * clearance],
  };
}

/** Fields of a stop along a travel. */
export const stopFields = z.strictObject({
  clearance: quantity('length', 'Way from the drawn position to the face of the stop.', {
    least: 0,
    most: 1000,
  }),
  rate: quantity('stiffness', 'Rate of ONE stop once it is touched.', { least: 1e-6, most: 1e12 }),
  damping: quantity('damping', 'Damping rate of ONE stop while it is pressed.', {
    least: 0,
    most: 1e9,
  }).default(0),
});
