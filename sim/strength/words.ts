import { type Dimension, formatQuantity, formatShare, shownUnit } from '../../shared/units.ts';
import type { StrengthCheck } from './kind.ts';

const dimensionOf: Readonly<Record<string, Dimension>> = {
  Pa: 'stress',
  N: 'force',
  N·m: 'torque',
  m: 'length',
  rad: 'angle',
  J: 'energy',
};

/** A figure in SI for people: shown(4.2e6, 'Pa') is '4.2 MPa'. Nothing is told in the unit of what it is held against. */
export function shown(value: number, unit: string, against = value): string {
  const dimension = dimensionOf[unit] ?? 'ratio';
  return value === 0
    ? formatQuantity(0, dimension, 3, shownUnit(dimension, against))
    : formatQuantity(value, dimension);
}

/** Material, safety factor, and how well the limit is known: '(mild-steel, safety factor 2, estimate ±10 %)'. */
function basis({ material, safety }: StrengthCheck): string {
  const { how, spread } = material ?? { how: 'given', spread: 0 };
  const known = { given: 'given', estimate: 'estimate', typical: 'typical, test yours' }[how];
  return [
    ...(material === undefined ? [] : [material.name]),
    safety === 1 ? 'no safety factor' : `safety factor ${shown(safety, '1')}`,
    spread > 0 ? `${known} ±${formatShare(spread, 2)}` : known,
  ].join(', ');
}

/** 'shear stress 4.2 MPa of 67.8 MPa, 6.2 % (mild-steel, safety factor 2, estimate ±10 %)'. */
export function checkWords(check: StrengthCheck, carries: number): string {
  const { quantity, unit, limit } = check;
  return `${quantity} ${shown(carries, unit, limit)} of ${shown(limit, unit)}, ${formatShare(carries / limit)} (${basis(check)})`;
}

/** What repeated loads mean for a spring or bar, `use` of its endurance line; undefined where nothing is published. */
export function repeatWords(use: number | undefined, rule: string): string {
  if (use === undefined) return 'repeated loads: no published endurance for this material, test it';
  const share = `repeated loads: ${formatShare(use)} of its endurance (${rule})`;
  return use > 1 ? `${share}: it breaks in the long run` : share;
}
