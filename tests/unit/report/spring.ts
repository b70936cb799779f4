import type { ElementLaw } from '../../../sim/elements/element.ts';

/** A spring of 1 N/m: bogies ask only where a spring acts, not what it does. */
export const linearSpring: ElementLaw = {
  memory: 0,
  energy: (x) => 0.5 * x * x,
  spring: (x) => -x,
  loss: () => 0,
  stiffness: () => 1,
  damping: 0,
  corners: [],
};
