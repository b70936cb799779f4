/*
 * A rating of a drive line part that is estimated from material and section, as a document has it.
 * Seen red: the driving wheel's teeth for the lever; 'given' for an estimate.
 */
import { describe, expect, it } from 'vitest';
import { ratingField, ratingOf } from '../../../sim/driveline/rating.ts';
import { loadScenario } from '../../../sim/index.ts';
import { smallTruck } from '../small-truck.ts';

const rating = (estimated: object) => ratingOf(ratingField.parse({ estimated } as never));
const gear = { module: '1 mm', width: '6 mm', teeth: [12, 36] };

describe('an estimated rating', () => {
  it('of a plus-shaped plastic shaft is its shear yield times its torsion modulus, over safety', () => {
    // a square bar of 4 mm is a plus without notches: W = 0.20817·64 mm³; 0.577·42 MPa/1.5; worked by hand
    const found = rating({
      material: 'abs',
      section: { shape: 'plus', width: '4 mm', arm: '4 mm' },
      safety: 1.5,
    });
    expect(found.torque / ((0.577 * 42e6 * 0.20817 * 64e-9) / 1.5)).toBeCloseTo(1, 4);
    expect(found).toMatchObject({ how: 'estimate', spread: 0.3 });
  });

  it('of a gear pair is told at the driven wheel, with the spread of teeth and material', () => {
    const found = rating({ material: 'brass', gear });
    // 220 MPa/2·6·1·0.245 mm² = 161.7 N at 18 mm
    expect(found.torque).toBeCloseTo(161.7 * 0.018, 9);
    expect(found.spread).toBeCloseTo(Math.hypot(0.1, 0.3), 12);
  });

  it.each([
    ['nothing', {}, 'section'],
    ['a shaft and teeth at once', { gear, section: { shape: 'round', diameter: '3 mm' } }, 'section'],
    ['no tooth', { gear: { ...gear, teeth: [0, 36] } }, 'gear.teeth[0]'],
    ['a material that nobody knows', { gear, material: 'bras' }, 'material'],
  ])('with %s is told at its place', (_name, wrong, place) => {
    const document = smallTruck();
    const estimated = { material: 'pom', ...wrong };
    document.vehicle.driveline = {
      parts: [
        {
          name: 'motor',
          kind: 'motor',
          stallTorque: '1 N m',
          noLoadSpeed: '100 rpm',
          wheels: ['middle', 'rear'],
          rating: { estimated },
        },
      ],
    };
    const paths = loadScenario(document).problems.map((p) => p.path);
    expect(paths).toContain(`vehicle.driveline.parts[0].rating.estimated.${place}`);
  });
});
