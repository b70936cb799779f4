/** Dimensions that the document knows. */
export type Dimension =
  | 'length'
  | 'mass'
  | 'time'
  | 'angle'
  | 'force'
  | 'torque'
  | 'speed'
  | 'spin'
  | 'acceleration'
  | 'stiffness'
  | 'torsionStiffness'
  | 'damping'
  | 'torsionDamping'
  | 'inertia'
  | 'stress'
  | 'ratio'
  | 'energy'
  | 'power'
  | 'frequency'
  | 'roughness'
  | 'perLengthSpeed'
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'charge'
  | 'temperature'
  | 'heatCapacity'
  | 'thermalResistance';

/**
 * Powers of metre, kilogram, second, radian, ampere and kelvin. The radian is kept as a base of its own, although SI counts it as 1,
 * so that a torque (N·m) and a torsional rate (N·m/rad) can be told apart.
 */
export type Powers = readonly [
  length: number,
  mass: number,
  time: number,
  angle: number,
  current: number,
  temperature: number,
];

export interface DimensionRow {
  readonly powers: Powers;
  /** SI unit. */
  readonly unit: string;
  /** With its article, for messages. */
  readonly says: string;
  /** How a person may write it. */
  readonly example: string;
}

/** One row per dimension. Units and symbols: SI brochure, 9th edition. */
export const dimensions: Readonly<Record<Dimension, DimensionRow>> = {
  length: { powers: [1, 0, 0, 0, 0, 0], unit: 'm', says: 'a length', example: '45 mm' },
  mass: { powers: [0, 1, 0, 0, 0, 0], unit: 'kg', says: 'a mass', example: '2.4 kg' },
  time: { powers: [0, 0, 1, 0, 0, 0], unit: 's', says: 'a time', example: '50 ms' },
  angle: { powers: [0, 0, 0, 1, 0, 0], unit: 'rad', says: 'an angle', example: '12 deg' },
  force: { powers: [1, 1, -2, 0, 0, 0], unit: 'N', says: 'a force', example: '20 N' },
  torque: { powers: [2, 1, -2, 0, 0, 0], unit: 'N·m', says: 'a torque', example: '1.2 N m' },
  speed: { powers: [1, 0, -1, 0, 0, 0], unit: 'm/s', says: 'a speed', example: '1.5 km/h' },
  spin: { powers: [0, 0, -1, 1, 0, 0], unit: 'rad/s', says: 'a speed of rotation', example: '180 rpm' },
  acceleration: { powers: [1, 0, -2, 0, 0, 0], unit: 'm/s²', says: 'an acceleration', example: '9.81 m/s^2' },
  stiffness: { powers: [0, 1, -2, 0, 0, 0], unit: 'N/m', says: 'a spring rate', example: '0.9 N/mm' },
  torsionStiffness: {
    powers: [2, 1, -2, -1, 0, 0],
    unit: 'N·m/rad',
    says: 'a torsional rate',
    example: '35 N mm/deg',
  },
  damping: { powers: [0, 1, -1, 0, 0, 0], unit: 'N·s/m', says: 'a damping rate', example: '3 N s/m' },
  torsionDamping: {
    powers: [2, 1, -1, -1, 0, 0],
    unit: 'N·m·s/rad',
    says: 'a torsional damping rate',
    example: '0.02 N m s/rad',
  },
  inertia: { powers: [2, 1, 0, 0, 0, 0], unit: 'kg·m²', says: 'a moment of inertia', example: '0.05 kg m^2' },
  stress: { powers: [-1, 1, -2, 0, 0, 0], unit: 'Pa', says: 'a stress', example: '79 GPa' },
  ratio: { powers: [0, 0, 0, 0, 0, 0], unit: '1', says: 'a plain number or a percentage', example: '20 %' },
  energy: { powers: [2, 1, -2, 0, 0, 0], unit: 'J', says: 'an energy', example: '5 J' },
  power: { powers: [2, 1, -3, 0, 0, 0], unit: 'W', says: 'a power', example: '50 W' },
  frequency: { powers: [0, 0, -1, 0, 0, 0], unit: 'Hz', says: 'a frequency', example: '240 Hz' },
  roughness: {
    powers: [3, 0, 0, 0, 0, 0],
    unit: 'm³',
    says: 'a roughness (power spectral density, m³)',
    example: '2e-6 m^3',
  },
  perLengthSpeed: {
    powers: [-1, 0, 1, 0, 0, 0],
    unit: 's/m',
    says: 'a damping per speed (s/m)',
    example: '0.5 s/m',
  },
  voltage: { powers: [2, 1, -3, 0, -1, 0], unit: 'V', says: 'a voltage', example: '7.4 V' },
  current: { powers: [0, 0, 0, 0, 1, 0], unit: 'A', says: 'an electric current', example: '12 A' },
  resistance: {
    powers: [2, 1, -3, 0, -2, 0],
    unit: 'Ω',
    says: 'an electric resistance',
    example: '60 mohm',
  },
  charge: { powers: [0, 0, 1, 0, 1, 0], unit: 'C', says: 'an electric charge', example: '2200 mA h' },
  temperature: {
    powers: [0, 0, 0, 0, 0, 1],
    unit: 'K',
    says: 'a difference of temperature',
    example: '80 K',
  },
  heatCapacity: {
    powers: [2, 1, -2, 0, 0, -1],
    unit: 'J/K',
    says: 'a heat capacity',
    example: '12 J/K',
  },
  thermalResistance: {
    powers: [-2, -1, 3, 0, 0, 1],
    unit: 'K/W',
    says: 'a thermal resistance',
    example: '14 K/W',
  },
};

/** SI unit of a dimension: 'm', 'N/m', 'N·m/rad'; '1' for a ratio. */
export function unitOf(dimension: Dimension): string {
  return dimensions[dimension].unit;
}

export const samePowers = (a: Powers, b: Powers): boolean => a.every((power, i) => power === b[i]);

/** What a unit with these powers measures, with its article; undefined when the document knows no such dimension. */
export function dimensionSays(powers: Powers): string | undefined {
  const names = Object.values(dimensions).filter((row) => samePowers(row.powers, powers));
  return names.length === 0 ? undefined : names.map((row) => row.says).join(' or ');
}
