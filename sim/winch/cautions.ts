import { formatQuantity } from '../../shared/units.ts';
import type { Winch } from './winch.ts';

/** Standard gravity, m/s², for comparisons in words. Exact by definition (SI brochure). */
const standardGravity = 9.80665;
/** Stored energy from which a rope that breaks throws things, J: a kilogram fallen from ankle height. Our own. */
const worthAWord = 1;
/** Mass from which what is pulled is treated as full size, kg: more than people hold. Our own. */
const heavy = 100;

/** Energy in words: '12 J, as much as 1 kg falling 1.2 m'. */
export function energyWords(joules: number): string {
  const mass = joules > 500 ? 100 : joules > 20 ? 10 : joules > 0.5 ? 1 : 0.1;
  const height = formatQuantity(joules / (mass * standardGravity), 'length', 2);
  return `${formatQuantity(joules, 'energy', 2)}, as much as ${mass} kg after falling ${height}`;
}

/** Cautions for work with a winch. `energy`: J in the stretched rope, null where it is not known; `mass`: kg of the vehicle. */
export function winchCautions(winch: Winch, energy: number | null, mass: number): string[] {
  const stored =
    energy === null
      ? 'How much energy the stretched rope stores is not known: its breaking load or stretch is missing.'
      : `The stretched rope stores ${energyWords(energy)}; it goes free at once when rope, hook or anchor gives way.`;
  const lash = [
    'Stay clear of the rope, out of its line and out of the bight at a block, and let nobody step over it.',
    'Lay a damper (a blanket, a bag) over the middle of the rope, and wear gloves and eye protection; keep fingers off drum and fairlead.',
  ];
  const large = mass > heavy;
  return [
    stored,
    ...(energy === null || energy >= worthAWord || large ? lash : lash.slice(1)),
    winch.rope.kind === 'wire' ? 'Broken wires of a wire rope cut: never let it run through bare hands.' : '',
    large
      ? 'Full-size recovery: use rated gear only, leave it to licensed operators, and follow local rules; these figures are no rigging plan.'
      : '',
  ].filter((text) => text !== '');
}
