/** How the ends of a rod are held against turning in the plane in which it may buckle. */
export type Ends = 'pinned' | 'one fixed' | 'fixed';

/**
 * End-condition constant C in Pcr = C·π²·E·I/l². Fixed ends are never quite fixed: 1.2 instead of the theoretical 2 and 4.
 * Source: Shigley, table of end-condition constants, recommended values (from memory).
 */
const endConstant: Readonly<Record<Ends, number>> = { pinned: 1, 'one fixed': 1.2, fixed: 1.2 };

/**
 * Critical compression of a straight rod, N: Euler's load where it is slender, Johnson's parabola
 * A·(Sy − (Sy·l/(2π·k))²/(C·E)) where it is stocky, from l/k = √(2π²·C·E/Sy) on, where the two meet at Sy/2.
 * Source: Shigley, Mechanical Engineering Design, columns (formulas of Euler and J. B. Johnson).
 * @param length m, @param area m², @param inertia least second moment, m⁴
 */
export function criticalCompression(
  length: number,
  area: number,
  inertia: number,
  material: { readonly modulus: number; readonly yield: number },
  ends: Ends,
): number {
  const c = endConstant[ends] * material.modulus;
  const slenderness = length / Math.sqrt(inertia / area);
  const square = 2 * Math.PI ** 2 * c;
  if (slenderness ** 2 * material.yield > square) return (c * Math.PI ** 2 * inertia) / length ** 2;
  return area * (material.yield - ((material.yield * slenderness) / (2 * Math.PI)) ** 2 / c);
}

/**
 * Wahl's factor for the curvature of a coil with the direct shear: (4C − 1)/(4C − 4) + 0.615/C, C = D/d.
 * Source: A. M. Wahl, Mechanical Springs; Shigley (from memory).
 */
export function wahlFactor(index: number): number {
  return (4 * index - 1) / (4 * index - 4) + 0.615 / index;
}

/** Shear stress in the wire of a coil spring per newton, Pa/N: Kw·8·D/(π·d³). Source: Wahl; EN 13906-1, Shigley. */
export function coilStress(diameter: number, coilDiameter: number): number {
  return (wahlFactor(coilDiameter / diameter) * 8 * coilDiameter) / (Math.PI * diameter ** 3);
}

/** Teeth and Lewis' Y for 20° full-depth teeth, load at the tip. 10 and 11: Machinery's Handbook; others: Shigley; all from memory. */
const lewis: readonly (readonly [number, number])[] = [
  [10, 0.201],
  [11, 0.226],
  [12, 0.245],
  [13, 0.261],
  [14, 0.277],
  [15, 0.29],
  [16, 0.296],
  [17, 0.303],
  [18, 0.309],
  [19, 0.314],
  [20, 0.322],
  [21, 0.328],
  [22, 0.331],
  [24, 0.337],
  [26, 0.346],
  [28, 0.353],
  [30, 0.359],
  [34, 0.371],
  [38, 0.384],
  [43, 0.397],
  [50, 0.409],
  [60, 0.422],
  [75, 0.435],
  [100, 0.447],
  [150, 0.46],
  [300, 0.472],
];

/**
 * Lewis' form factor Y, to be used with the module: σ = F/(b·m·Y). Between the teeth of the table straight over 1/teeth;
 * under 10 teeth its first slope goes on, never below 0.1 (definition of our own).
 */
export function lewisFactor(teeth: number): number {
  const over = lewis.findIndex(([z]) => z >= teeth);
  if (over < 0) return 0.472;
  if (over === 0) return Math.max(0.1, 0.201 - 0.025 * (10 - teeth));
  const [[a, ya], [b, yb]] = [lewis[over - 1] as [number, number], lewis[over] as [number, number]];
  return ya + ((yb - ya) * (1 / a - 1 / teeth)) / (1 / a - 1 / b);
}

/** Bending stress at the root of a tooth, Pa: force N, width and module m. Source: Lewis; Shigley, spur gears. */
export function toothStress(force: number, width: number, module: number, teeth: number): number {
  return force / (width * module * lewisFactor(teeth));
}
