import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';

/** Figures of a material, SI. */
export interface Material {
  readonly name: string;
  /** Young's modulus and shear modulus, Pa. */
  readonly modulus: number;
  readonly shearModulus: number;
  /** Stress at which it yields, or breaks where it does not yield, Pa; `tensile` where it breaks. Of wire: of 1 mm. */
  readonly yield: number;
  readonly tensile: number;
  /** Stress at which it yields in shear, Pa. */
  readonly shearYield: number;
  /** kg/m³; absent where a document gives own figures. */
  readonly density?: number;
  /** Drawn wire is the stronger the thinner: tensile = strength/(diameter in mm)^exponent, and its share in shear. */
  readonly wire?: { readonly exponent: number; readonly shear: number };
  /** How its figures are known, and how far they may be off (relative, ±). */
  readonly how: 'given' | 'estimate' | 'typical';
  readonly spread: number;
  /** What is known of repeated loads: spring wire and heat-treated spring bars, other steels, or nothing published. */
  readonly repeats: 'spring' | 'steel' | 'unknown';
}

/** Shear yield over yield of a ductile material. Source: distortion energy (von Mises), 1/√3; Shigley rounds to 0.577. */
export const SHEAR_SHARE = 0.577;

/** E, G GPa; yield, tensile MPa; density kg/m³. */
type Row = readonly [
  modulus: number,
  shearModulus: number,
  yields: number,
  tensile: number,
  density: number,
  more?: Partial<Material>,
];

const steel = { repeats: 'steel' } as const;
const plastic = { how: 'typical', spread: 0.3 } as const;
const wood = (along: number) => ({ how: 'typical', spread: 0.4, shearYield: along }) as const;

/** Wire of 1 mm yields in shear at so much of its tensile strength (before it is set). */
const wire = (tensile: number, exponent: number, shear: number): Partial<Material> => ({
  wire: { exponent, shear },
  shearYield: tensile * shear * 1e6,
  repeats: 'spring',
});

/** Least figures of the standards for metals, typical ones for the rest; each row's source is in sources.ts. */
const rows = {
  'mild-steel': [210, 81, 235, 360, 7850, steel],
  'carbon-steel': [210, 81, 340, 620, 7850, steel],
  'alloy-steel': [210, 81, 900, 1100, 7850, steel],
  'stainless-steel': [200, 77, 190, 500, 7900, steel],
  'spring-steel': [206, 78.5, 1200, 1350, 7850, { repeats: 'spring' }],
  'music-wire': [206, 81.5, 1660, 2211, 7850, wire(2211, 0.145, 0.45)],
  'hard-drawn-wire': [206, 81.5, 1180, 1783, 7850, wire(1783, 0.19, 0.45)],
  'stainless-wire': [185, 70, 1210, 1867, 7900, wire(1867, 0.146, 0.35)],
  'aluminium-6061': [68.9, 26, 240, 260, 2700],
  'aluminium-7075': [71.7, 26.9, 480, 540, 2810],
  titanium: [113.8, 44, 828, 895, 4430],
  brass: [97, 37, 220, 430, 8470],
  pom: [2.8, 1, 65, 65, 1410, plastic],
  pa: [1.7, 0.6, 55, 55, 1140, plastic],
  abs: [2.3, 0.83, 42, 42, 1050, plastic],
  pc: [2.35, 0.85, 62, 62, 1200, plastic],
  'pla-printed': [3.3, 1.2, 50, 50, 1240, { how: 'typical', spread: 0.5 }],
  pine: [10, 0.6, 35, 35, 500, wood(6e6)],
  'birch-plywood': [9, 0.62, 40, 40, 680, wood(9e6)],
} as const satisfies Record<string, Row>;

export type MaterialName = keyof typeof rows;

/** Names of the materials in the table. */
export const materialNames = Object.keys(rows) as [MaterialName, ...MaterialName[]];

const own = z
  .strictObject({
    modulus: quantity('stress', "Young's modulus.", { least: 1e3, most: 1e13 }),
    yield: quantity('stress', 'Stress at which it yields, or breaks where it does not yield.', {
      above: 0,
      most: 1e11,
    }),
    shearModulus: quantity('stress', 'Shear modulus; modulus/2.6 when left out.', {
      least: 1e3,
      most: 1e13,
    }).optional(),
    shearYield: quantity('stress', 'Stress at which it yields in shear; 0.577 of `yield` when left out.', {
      above: 0,
      most: 1e11,
    }).optional(),
    spread: quantity('ratio', 'How far its figures may be off: ± this share.', {
      least: 0,
      below: 1,
    }).default(0),
  })
  .meta({ description: 'Figures of your own, measured or from a certificate.' });

/** A material as a document has it: a name of the table, or figures. */
export const materialField = z.union([z.enum(materialNames), own]).meta({
  description: 'Material: a name, or {"modulus", "yield", …}. Plastics and wood: typical, test yours.',
});

/** Figures of a material of the document. */
export function materialOf(field: z.output<typeof materialField>): Material {
  if (typeof field === 'string') return tabled(field);
  return {
    name: 'own figures',
    modulus: field.modulus,
    shearModulus: field.shearModulus ?? field.modulus / 2.6,
    yield: field.yield,
    tensile: field.yield,
    shearYield: field.shearYield ?? SHEAR_SHARE * field.yield,
    how: 'given',
    spread: field.spread,
    repeats: 'unknown',
  };
}

function tabled(name: MaterialName): Material {
  const [modulus, shearModulus, yields, tensile, density, more]: Row = rows[name];
  return {
    name,
    modulus: modulus * 1e9,
    shearModulus: shearModulus * 1e9,
    yield: yields * 1e6,
    tensile: tensile * 1e6,
    shearYield: SHEAR_SHARE * yields * 1e6,
    density,
    how: 'estimate',
    spread: 0.1,
    repeats: 'unknown',
    ...more,
  };
}

/**
 * The material of a bar or wire of this thickness, m: drawn wire by its tensile strength A/dᵐ, others as they are.
 * Source: Shigley, tables of wire strength (A, m) and of allowed torsional stress, from memory.
 */
export function atThickness(material: Material, thickness: number): Material {
  if (material.wire === undefined) return material;
  const by = (thickness * 1000) ** -material.wire.exponent;
  return {
    ...material,
    yield: material.yield * by,
    tensile: material.tensile * by,
    shearYield: material.shearYield * by,
  };
}
