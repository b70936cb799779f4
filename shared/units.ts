/** Dimensions that the document knows. */
export type Dimension =
  | 'length' | 'mass' | 'time' | 'angle' | 'force' | 'torque' | 'speed' | 'spin' | 'acceleration' | 'stiffness'
  | 'torsionStiffness' | 'damping' | 'torsionDamping' | 'inertia' | 'stress' | 'ratio' | 'energy' | 'power' | 'frequency'
  | 'roughness' | 'perLengthSpeed';

/** SI unit of a dimension: 'm', 'N/m', 'N·m/rad'; '1' for a ratio. */
export function unitOf(_dimension: Dimension): string {
  throw new Error('provisional');
}

/** Reads a number in SI or text with a unit. The message says which dimension was wanted. */
export function parseQuantity(
  _written: number | string,
  _dimension: Dimension,
): { ok: true; value: number } | { ok: false; message: string; hint?: string } {
  throw new Error('provisional');
}
