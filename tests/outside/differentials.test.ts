/*
 * Open differentials and motors of their own on a grade, against Gillespie and Wong's gradeability equations (places from
 * memory), as in checks of grade limits: h/L = 0.375, centre of gravity mid-wheelbase, grip 0.8.
 * Seen red: a wheel that spins let the others have more (an open centre then climbs the grade of locked axles).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Sharing } from '../../shared/schema/scenario.ts';
import { crawl, loadScenario } from '../../sim/index.ts';

const degree = Math.PI / 180;
const wheelbase = 0.32;
const radius = 0.05;

/** Two axles without springs, on hard tyres, on an even slope. */
function climb(angle: number, sharing: Sharing) {
  const wheel = (name: string, x: number) => ({
    name,
    at: { x, z: radius },
    radius,
    massPerWheel: 1e-4,
    tyre: { stiffnessPerWheel: 1e6, grip: 0.8, rolling: 0 },
  });
  const read = loadScenario({
    format: 'axlewright-scenario',
    version: 1,
    title: 'two axles on a grade',
    vehicle: {
      name: 'two axles',
      masses: [{ name: 'all', mass: 3, at: { x: -wheelbase / 2, z: 0.375 * wheelbase }, inertia: 0.02 }],
      wheels: [wheel('front', 0), wheel('rear', -wheelbase)],
      drive: { torquePerWheel: 100, speed: 0.1, sharing },
    },
    ground: [{ kind: 'ramp', length: 4, angle }],
    run: { start: 1.5, until: 1.6 },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return crawl(read.value, { stations: 4 }).end;
}

describe('on a grade with a grip of 0.8', () => {
  // locked or with motors of their own: atan μ; an open centre differential: twice what the weaker axle holds,
  // sin = 2·μ·N_front/W with N_front/W = ½·cos − (h/L)·sin: tan = μ/(1 + 2·μ·h/L) = 0.5, 26.565°
  it.each([
    { sharing: 'locked' as const, limit: 38.6598 },
    { sharing: 'motors' as const, limit: 38.6598 },
    { sharing: 'open' as const, limit: 26.5651 },
    { sharing: { open: ['front', { locked: ['rear'] }] }, limit: 26.5651 },
  ])('two axles with sharing $sharing climb to $limit degrees', ({ sharing, limit }) => {
    // tyres 3 µm deep on 50 mm and 0.2 g of wheels shift the limit by some 1e-4: 0.3 % each way is well clear of it
    expect(climb(0.997 * limit * degree, sharing).kind).toBe('arrived');
    // a whole vehicle without grip left slides before it starts, which is stuck too
    expect(climb(1.003 * limit * degree, sharing).kind).toBe('stuck');
  });

  it('says that one wheel spins behind an open differential', () => {
    expect(climb(30 * degree, 'open')).toMatchObject({
      by: 'grip',
      cause: 'front spins, and behind an open differential the others get no more',
    });
  });
});

describe('a tree of locks and differentials', () => {
  const document = (sharing: unknown) => {
    const shipped = JSON.parse(
      readFileSync(new URL('../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
    );
    shipped.vehicle.drive.sharing = sharing;
    return loadScenario(shipped);
  };

  it('is read', () => {
    expect(document({ open: ['front', { locked: ['middle', 'rear'] }] }).ok).toBe(true);
  });

  it.each([
    [{ open: ['frnt', { locked: ['middle', 'rear'] }] }, "no axle line is called 'frnt'"],
    [{ open: ['front', { locked: ['middle', 'front', 'rear'] }] }, "'front' stands in the tree twice"],
    [{ open: ['front', 'middle'] }, "leaves out 'rear', which is driven"],
  ])('%j is refused: %s', (sharing, reason) => {
    const read = document(sharing);
    expect(read.ok).toBe(false);
    expect(read.problems.map((p) => p.message)).toContain(reason);
  });
});
