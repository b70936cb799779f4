/*
 * Grades that a drive line climbs, by its locks, differentials and motors, against Gillespie and Wong's gradeability
 * equations (places from memory): h/L = 0.375, centre of gravity mid-wheelbase, grip 0.8. A limited differential: torque
 * bias ratio, texts on drivelines.
 * Seen red: a bias of 1 for every differential; the preload left out; a locked centre taken for an open one.
 */
import { describe, expect, it } from 'vitest';
import { crawl, loadScenario } from '../../sim/index.ts';

const degree = Math.PI / 180;
const wheelbase = 0.32;
const radius = 0.05;

type Part = Record<string, unknown>;

const motor = (name = 'motor'): Part => ({
  name,
  kind: 'motor',
  stallTorque: 100,
  noLoadSpeed: 100,
  axis: 'across',
});
const final = (name: string, from: string): Part => ({
  name: `${name} final`,
  kind: 'reduction',
  from,
  ratio: 1,
  efficiency: 1,
  wheels: [name],
});
const centre = (more: Part): Part[] => [
  motor(),
  { name: 'centre', kind: 'differential', from: 'motor', ...more },
  final('front', 'centre'),
  final('rear', 'centre'),
];

/** Two axles without springs, on hard tyres, on an even slope. */
function climbs(angle: number, parts: Part[]) {
  const wheel = (name: string, x: number) => ({
    name,
    at: { x, z: radius },
    radius,
    massPerWheel: 1e-4,
    tyre: { stiffnessPerWheel: 1e6, grip: 0.8, rolling: 0 },
  });
  const turned = ['front', 'rear'].filter((name) =>
    parts.some((part) => (part.wheels as string[] | undefined)?.includes(name)),
  );
  const read = loadScenario({
    format: 'axlewright-scenario',
    version: 1,
    title: 'two axles on a grade',
    vehicle: {
      name: 'two axles',
      masses: [{ name: 'all', mass: 3, at: { x: -wheelbase / 2, z: 0.375 * wheelbase }, inertia: 0.02 }],
      wheels: [wheel('front', 0), wheel('rear', -wheelbase)],
      drive: { speed: 0.1, driven: turned },
      driveline: { parts },
    },
    ground: [{ kind: 'ramp', length: 4, angle }],
    run: { start: 1.5, until: 1.6 },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return crawl(read.value, { stations: 4 }).end;
}

/** Load shares on a grade: N_front/W = ½·cos − (h/L)·sin. */
const shares = (angle: number) => ({
  front: 0.5 * Math.cos(angle) - 0.375 * Math.sin(angle),
  rear: 0.5 * Math.cos(angle) + 0.375 * Math.sin(angle),
});

/**
 * Grade at which a limited centre gives out: the front spins at μ·N_f and the rear gets B·μ·N_f + P/r, no more than its
 * own grip: sin α = μ·N_f·(1 + B) + P/(r·W), found by bisection on the closed form.
 */
function limitedGrade(bias: number, preload: number): number {
  const weight = (3 + 4e-4) * 9.80665;
  let [low, high] = [0, 38 * degree];
  for (let n = 0; n < 60; n++) {
    const angle = (low + high) / 2;
    const { front, rear } = shares(angle);
    const push = 0.8 * front + Math.min(0.8 * rear, bias * 0.8 * front + preload / radius / weight);
    if (push > Math.sin(angle)) low = angle;
    else high = angle;
  }
  return low / degree;
}

describe('on a grade with a grip of 0.8', () => {
  it.each<[string, Part[], number]>([
    ['a locked centre', centre({ mode: 'locked' }), 38.6598],
    ['a shaft to both axles', [motor(), final('front', 'motor'), final('rear', 'motor')], 38.6598],
    ['rear drive', [motor(), final('rear', 'motor')], 29.7449],
    ['front drive', [motor(), final('front', 'motor')], 17.1027],
    ['an open centre', centre({ mode: 'open' }), 26.5651],
    ['a motor for each axle', [motor('a'), motor('b'), final('front', 'a'), final('rear', 'b')], 38.6598],
    ['a limited centre with a bias of 1.5', centre({ mode: 'limited', bias: 1.5 }), limitedGrade(1.5, 0)],
    ['a limited centre with a preload', centre({ mode: 'limited', preload: 0.2 }), limitedGrade(1, 0.2)],
  ])('%s climbs as far as it should', (_name, parts, limit) => {
    // tyres 3 µm deep on 50 mm and 0.2 g of wheels shift the limit by some 1e-4: 0.3 % each way is well clear of it
    expect(climbs(0.997 * limit * degree, parts).kind).toBe('arrived');
    expect(climbs(1.003 * limit * degree, parts).kind).toBe('stuck');
  });

  it('a limited centre comes to lie between an open and a locked one', () => {
    expect(limitedGrade(1.0001, 0)).toBeCloseTo(26.5651, 1);
    expect(limitedGrade(1.5, 0)).toBeGreaterThan(28);
    expect(limitedGrade(100, 0)).toBeCloseTo(38, 1);
  });
});
