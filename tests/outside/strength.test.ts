/*
 * Strength of the running gear against published formulas and worked examples.
 *
 * Closed forms agree to 1e-6 of the figures printed here, that is to their last digit; where a table or a rounded example
 * is the source, the tolerance is argued beside it. Figures of the setups are ours unless a source gives them.
 *
 * Seen red: one shear plane in a fork; d for d² in the pin's section; 16 for 8 in the coil's stress; Wahl's 0.615 left
 * out; F·L for F·L/4 between two ends; Euler's load for stocky rods; Johnson's parabola without its square; Lewis' older
 * factor taken for the newer one; Zimmerli's pair swapped; the thickness of wire taken in m.
 */
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { torsionModulus } from '../../sim/elements/section.ts';
import {
  coilStress,
  criticalCompression,
  lewisFactor,
  toothStress,
  wahlFactor,
} from '../../sim/strength/formulas.ts';
import type { Fitted, StrengthCheck, StrengthKind } from '../../sim/strength/kind.ts';
import { bar } from '../../sim/strength/kinds/bar.ts';
import { coil } from '../../sim/strength/kinds/coil.ts';
import { leaf } from '../../sim/strength/kinds/leaf.ts';
import { pin } from '../../sim/strength/kinds/pin.ts';
import { atThickness, materialOf } from '../../sim/strength/material.ts';
import { repeatedUse, repeatsOf } from '../../sim/strength/repeats.ts';
import { sectionFigures } from '../../sim/strength/section.ts';
import { estimatedTorque } from '../../sim/strength/torque.ts';

const alone: Fitted = { count: 1, safety: 1, length: 0, element: undefined, turns: false };

/** Limits of an entry as a person writes it, for ONE part. */
function checksOf<S extends z.ZodObject>(
  kind: StrengthKind<S>,
  written: z.input<S>,
  fitted: Partial<Fitted> = {},
): readonly StrengthCheck[] {
  const { checks, missing } = kind.judge(kind.fields.parse(written), { ...alone, ...fitted });
  if (missing !== undefined) throw new Error(missing.message);
  return checks;
}

const off = (found: number | undefined, expected: number): number =>
  Math.abs((found ?? Number.NaN) / expected - 1);

describe('a hinge pin in double shear', () => {
  // Shigley, distortion-energy shear yield 0.577·Sy (from memory): 4 mm, yield 350 MPa, safety 2, lug 5 mm.
  const steel = { modulus: '206 GPa', yield: '350 MPa' };
  const [cut, pressed] = checksOf(
    pin,
    { member: 'x', material: steel, diameter: '4 mm', lug: '5 mm' },
    { safety: 2 },
  );
  const rated = (cut?.limit ?? 0) / (cut?.per.force ?? 0);

  it('is rated at 2537.7785 N', () => {
    expect(off(rated, 2537.7785)).toBeLessThan(1e-7);
  });

  it('then presses its lug with 126.88893 MPa', () => {
    expect(off(rated * (pressed?.per.force ?? 0), 126.88893e6)).toBeLessThan(1e-7);
  });

  it('carries half of that in single shear', () => {
    const [single] = checksOf(
      pin,
      { member: 'x', material: steel, diameter: '4 mm', lug: '5 mm', shear: 'single' },
      { safety: 2 },
    );
    expect(off((single?.limit ?? 0) / (single?.per.force ?? 0), rated / 2)).toBeLessThan(1e-12);
  });
});

describe('a round torsion bar', () => {
  it('of 2 mm is stressed by 190.98593 MPa under 0.30 N·m', () => {
    // τ = 16·T/(π·d³), any text on strength of materials
    const [stress] = checksOf(bar, {
      element: 'x',
      material: 'spring-steel',
      section: { shape: 'round', diameter: '2 mm' },
    });
    expect(off(0.3 * (stress?.per.torque ?? 0), 190.98593e6)).toBeLessThan(1e-7);
  });

  it('of 2 mm and 120 mm, G = 80 GPa, twists by 16.414032° under it', () => {
    const rate = (Math.PI * 80e9 * 0.002 ** 4) / 32 / 0.12;
    const [, twist] = checksOf(
      bar,
      {
        element: 'x',
        material: 'spring-steel',
        section: { shape: 'round', diameter: '2 mm' },
        mostTwist: '1 rad',
      },
      { element: { kind: 'torsion-bar', rate } },
    );
    expect(off((0.3 * (twist?.per.torque ?? 0) * 180) / Math.PI, 16.414032)).toBeLessThan(1e-7);
  });
});

describe('the greatest shear stress of a rectangle in torsion', () => {
  // α in τ = T/(α·long·short²): Timoshenko & Goodier print 0.208, 0.246, 0.312 (from memory); five digits by
  // Saint-Venant's series, summed by a separate program, so half a unit of the fifth.
  it.each([
    [1, 0.20817],
    [2, 0.24588],
    [10, 0.31233],
  ])('sides %d : 1 has α = %d', (ratio, alpha) => {
    const modulus = torsionModulus({ shape: 'rectangle', width: ratio * 0.003, height: 0.003 });
    expect(Math.abs(modulus / (ratio * 0.003 ** 3) - alpha)).toBeLessThan(1e-5);
  });
});

describe('a coil spring', () => {
  it("has Wahl's factor 1.192019 with a coil of 10 mm and wire of 1.3 mm", () => {
    expect(off(wahlFactor(10 / 1.3), 1.192019)).toBeLessThan(1e-6);
  });

  it('of these is stressed by 276.32693 MPa at 20 N', () => {
    // Wahl; Shigley (from memory): Kw·8·F·D/(π·d³)
    expect(off(20 * coilStress(0.0013, 0.01), 276.32693e6)).toBeLessThan(1e-7);
    const wire = { diameter: '1.3 mm', coilDiameter: '10 mm' };
    const [stress] = checksOf(coil, { element: 'x', material: 'music-wire', wire }, { count: 2 });
    expect(off(40 * (stress?.per.force ?? 0), 276.32693e6)).toBeLessThan(1e-7);
  });
});

describe('a flat spring of 20 × 1.5 mm under 10 N', () => {
  // 6·M/(b·t²); Roark's Formulas, beams (from memory)
  it.each([
    ['at one end', '80 mm', 106.66667e6],
    ['at both ends', '160 mm', 53.333333e6],
  ] as const)('held %s, %s long, is bent with %d Pa', (held, span, expected) => {
    const leaves = { count: 1, width: '20 mm', thickness: '1.5 mm', span, held };
    const [stress] = checksOf(leaf, { element: 'x', material: 'spring-steel', leaves });
    expect(off(10 * (stress?.per.force ?? 0), expected)).toBeLessThan(1e-7);
  });
});

describe('a column', () => {
  // Setup of a textbook exercise seen on a public study page: hollow round, 1500 mm, 20 and 14 mm, E 207 GPa, Sy 300 MPa,
  // pinned ends. Answers worked here with Shigley's formulas, in mm and N, apart from the code.
  const steel = { modulus: 207e9, yield: 300e6 };
  const { area, inertia } = sectionFigures({ shape: 'tube', outside: 0.02, inside: 0.014 });
  const carries = (length: number, ends: 'pinned' | 'fixed' = 'pinned') =>
    criticalCompression(length, area, inertia, steel, ends);

  it("of 1500 mm is slender: 245.8 > 116.7, Euler's 5419.184 N", () => {
    expect(off(carries(1.5), 5419.184)).toBeLessThan(1e-6);
  });

  it("of 300 mm is stocky: Johnson's 43 803.04 N, and Euler's 25 times 5419 N would be far off", () => {
    expect(off(carries(0.3), 43_803.04)).toBeLessThan(1e-6);
  });

  it('goes over from one to the other at half its yield, without a step', () => {
    const length = Math.sqrt((2 * Math.PI ** 2 * 207e9) / 300e6) * Math.sqrt(inertia / area);
    expect(off(carries(length * (1 - 1e-9)), (area * 300e6) / 2)).toBeLessThan(1e-8);
    expect(off(carries(length * (1 + 1e-9)), (area * 300e6) / 2)).toBeLessThan(1e-8);
  });

  it('carries 1.2 times as much with fixed ends while it is slender: recommended, not the theoretical 4', () => {
    expect(off(carries(3, 'fixed'), 1.2 * carries(3))).toBeLessThan(1e-12);
  });
});

describe('music wire', () => {
  it('of 0.037 in has a tensile strength of 324 kpsi and yields in shear at 146 kpsi', () => {
    // Shigley, first example on helical compression springs (from memory); its constants are rounded in kpsi, ours in
    // MPa, and it prints three digits: 0.5 %
    const { tensile, shearYield } = atThickness(materialOf('music-wire'), 0.037 * 0.0254);
    expect(off(tensile, 324 * 6.894757e6)).toBeLessThan(0.005);
    expect(off(shearYield, 146 * 6.894757e6)).toBeLessThan(0.005);
  });

  it("is at its endurance under Zimmerli's 379 ± 241 MPa, at any thickness", () => {
    // Zimmerli, unpeened, as handed on by Shigley (seen in a public sheet of formulas): 35 and 55 kpsi
    for (const thickness of [0.5e-3, 2e-3, 8e-3]) {
      const repeats = repeatsOf(materialOf('music-wire'), thickness, 1e6);
      expect(off(repeatedUse(repeats, 379 - 241, 379 + 241), 1)).toBeLessThan(1e-12);
    }
  });
});

describe('teeth of a gear', () => {
  // Shigley, table of Lewis factors, 20° full depth (from memory). A public curve fit to such a table gives 0.3192 for 20.
  it('have Y = 0.322 at 20, near the fit', () => {
    expect(lewisFactor(20)).toBe(0.322);
    expect(Math.abs(lewisFactor(20) - 0.3192)).toBeLessThan(0.003);
  });

  it('of 20 with module 1 mm and 8 mm width are bent with 11.645963 MPa by 30 N', () => {
    expect(off(toothStress(30, 0.008, 0.001, 20), 11.645963e6)).toBeLessThan(1e-7);
  });

  it('have the same stress by the older factor y = Y/π with the circular pitch π·m', () => {
    const y = lewisFactor(20) / Math.PI;
    expect(off(y, 0.10249578)).toBeLessThan(1e-7);
    expect(off(30 / (0.008 * Math.PI * 0.001 * y), toothStress(30, 0.008, 0.001, 20))).toBeLessThan(1e-12);
  });

  it('rate a pair at the torque that bends its weaker wheel to its limit', () => {
    // 65 MPa, safety 2, 12 : 36, m 1 mm, b 6 mm: F = 32.5·6·1·0.245 = 47.775 N at 18 mm: 0.85995 N·m; worked by hand
    const gear = { module: 0.001, width: 0.006, teeth: [12, 36] as [number, number] };
    expect(off(estimatedTorque({ material: 'pom', gear, safety: 2 }).torque, 0.85995)).toBeLessThan(1e-9);
  });
});

it('rates a steel shaft of 5 mm at its shear yield', () => {
  // 0.577·235 MPa·π·5³/16 mm³/2 = 1.66399 N·m, worked by hand
  const shaft = estimatedTorque({
    material: 'mild-steel',
    section: { shape: 'round', diameter: 0.005 },
    safety: 2,
  });
  expect(off(shaft.torque, (0.577 * 235 * Math.PI * 125) / 16 / 2 / 1000)).toBeLessThan(1e-12);
  expect(off(shaft.torque, 1.66399)).toBeLessThan(1e-5);
});
