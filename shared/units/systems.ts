import { type Dimension, dimensions } from './dimensions.ts';

/** A unit to show figures in, and the size in SI from which it is used. */
export interface Rung {
  readonly unit: string;
  readonly from: number;
}

/**
 * In which units figures are shown. `builder`: mm, N/mm and degrees, as builders speak, and larger ones further up; `si`:
 * SI without prefixes; `inch`: inches and pounds.
 */
export type UnitSystem = 'builder' | 'si' | 'inch';

export const unitSystems: readonly { readonly id: UnitSystem; readonly title: string }[] = [
  { id: 'builder', title: 'mm, N/mm, degrees' },
  { id: 'si', title: 'SI: m, N/m, radians' },
  { id: 'inch', title: 'inches, pounds, degrees' },
];

const rung = (unit: string, from = 0): Rung => ({ unit, from });

/** Units for people, smallest first: those in which builders of models and, further up, of full-size trucks speak. */
const builder: Readonly<Record<Dimension, readonly Rung[]>> = {
  length: [rung('mm'), rung('m', 1), rung('km', 10_000)],
  mass: [rung('g'), rung('kg', 1), rung('t', 10_000)],
  time: [rung('ms'), rung('s', 1)],
  angle: [rung('deg')],
  force: [rung('N'), rung('kN', 10_000)],
  torque: [rung('N·mm'), rung('N·m', 1), rung('kN·m', 10_000)],
  speed: [rung('m/s')],
  spin: [rung('rpm')],
  acceleration: [rung('m/s²')],
  stiffness: [rung('N/mm'), rung('kN/mm', 1e6)],
  torsionStiffness: [
    rung('N·mm/deg'),
    rung('N·m/deg', 180 / Math.PI),
    rung('kN·m/deg', (1000 * 180) / Math.PI),
  ],
  damping: [rung('N·s/m'), rung('kN·s/m', 10_000)],
  torsionDamping: [rung('N·mm·s/rad'), rung('N·m·s/rad', 1), rung('kN·m·s/rad', 10_000)],
  inertia: [rung('kg·mm²'), rung('kg·m²', 0.01)],
  stress: [rung('Pa'), rung('kPa', 1e3), rung('MPa', 1e6), rung('GPa', 1e9)],
  ratio: [rung('1')],
  energy: [rung('mJ'), rung('J', 1), rung('kJ', 10_000)],
  power: [rung('W'), rung('kW', 10_000)],
  frequency: [rung('Hz')],
  roughness: [rung('m³')],
  perLengthSpeed: [rung('s/m')],
  voltage: [rung('V'), rung('kV', 10_000)],
  current: [rung('mA'), rung('A', 1)],
  resistance: [rung('mΩ'), rung('Ω', 1)],
  charge: [rung('mA·h'), rung('A·h', 36_000)],
  temperature: [rung('K')],
  heatCapacity: [rung('J/K'), rung('kJ/K', 10_000)],
  thermalResistance: [rung('K/W')],
};

/** Pound-force and foot in SI, exact: see symbols.ts. */
const lbf = 0.45359237 * 9.80665;
const foot = 0.3048;

/** Inches and pounds where there are any; electric and thermal figures have none and stay. */
const inch: Readonly<Partial<Record<Dimension, readonly Rung[]>>> = {
  length: [rung('in'), rung('ft', 12 * foot)],
  mass: [rung('oz'), rung('lb', 0.45359237)],
  force: [rung('lbf')],
  torque: [rung('lbf·in'), rung('lbf·ft', 10 * lbf * foot)],
  speed: [rung('ft/s')],
  acceleration: [rung('ft/s²')],
  stiffness: [rung('lbf/in')],
  torsionStiffness: [rung('lbf·in/deg'), rung('lbf·ft/deg', (10 * lbf * foot * 180) / Math.PI)],
  damping: [rung('lbf·s/in')],
  torsionDamping: [rung('lbf·in·s/rad'), rung('lbf·ft·s/rad', 10 * lbf * foot)],
  inertia: [rung('lb·in²'), rung('lb·ft²', 10 * 0.45359237 * foot ** 2)],
  stress: [rung('psi')],
  energy: [rung('lbf·in'), rung('lbf·ft', lbf * foot)],
  perLengthSpeed: [rung('s/ft')],
};

/** Units in which figures of a dimension are shown in a system, smallest first. */
export function rungsOf(dimension: Dimension, system: UnitSystem): readonly Rung[] {
  if (system === 'si') return [rung(dimensions[dimension].unit)];
  return (system === 'inch' ? inch[dimension] : undefined) ?? builder[dimension];
}
