/*
 * Limits found by bisection, against closed forms for a rigid truck on hard tyres.
 *
 * Seen red: stations no finer near the limits (front and rear axle on a step), the run-up begun on the obstacle, the
 * underside left out, torque limits ten times as high, a fall taken for a drop (tips at 53.13 degrees).
 */
import { describe, expect, it } from 'vitest';
import { gradeDown } from '../../sim/limits/grade-down.ts';
import { gradeUp } from '../../sim/limits/grade-up.ts';
import { type Limit, limitOf } from '../../sim/limits/limit.ts';
import type { ObstacleKind } from '../../sim/limits/obstacle.ts';
import { stepUp } from '../../sim/limits/step-up.ts';
import { trench } from '../../sim/limits/trench.ts';
import { withItems } from '../../sim/limits/vary.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { g, type Rig, scenarioOf } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const [radius, wheelbase, weight] = [0.06, 0.32, 30];

/** A truck to be tried. */
interface Trial {
  readonly grip: number;
  /** Height of the centre of gravity, m; 0.12 when left out. */
  readonly height?: number;
  readonly drive?: Partial<NonNullable<Rig['drive']>>;
  readonly belly?: Mechanism['belly']['points'];
  /** Of a tyre, N/m at half the weight. */
  readonly stiffness?: number;
}

/** Two axles 320 mm apart on wheels of 120 mm, all one rigid body; centre of gravity mid-wheelbase. */
function truck({ grip, height = 0.12, drive = {}, belly = [], stiffness = 3e5 }: Trial): Mechanism {
  const rig: Rig = {
    mass: weight / g,
    cg: { x: -wheelbase / 2, z: height },
    axles: (
      [
        ['front', 0],
        ['rear', -wheelbase],
      ] as const
    ).map(([name, x]) => ({
      name,
      at: { x, z: radius },
      radius,
      mass: 1e-4,
      stiffness,
      load: weight / 2,
      grip,
    })),
    drive: { torquePerWheel: 1000, speed: 0.1, ...drive },
  };
  return { ...compile(scenarioOf(rig)), belly: { body: 0, points: belly } };
}

const limit = (trial: Trial, obstacle: ObstacleKind): Limit =>
  limitOf(truck(trial), obstacle, { sense: 1, noStops: [] });

/** Where a function that rises passes zero. */
function rootOf(f: (x: number) => number, low: number, high: number): number {
  let [below, above] = [low, high];
  for (let n = 0; n < 100; n++) {
    const middle = 0.5 * (below + above);
    if (f(middle) < 0) below = middle;
    else above = middle;
  }
  return 0.5 * (below + above);
}

/** Up to where the front axle has climbed and the rear one has not begun. */
const underFront: ObstacleKind = { ...stepUp, ends: () => -wheelbase };

describe('the highest step for the front axle of a rigid truck', () => {
  // Free body as in Wong, Theory of Ground Vehicles, obstacles (place from memory): both axles at the friction limit,
  // normal on the edge leaning by θ, cos θ = 1 − h/r, s = sin θ, c = cos θ: μ·Nr = Nf(s − μc), Nr + Nf(c + μs) = W,
  // moments about the rear contact; wheelbase/r = 16/3. A free front axle: without its friction. Solved to five digits.
  const cases = [
    { grip: 0.3, driven: 'all' as const, ratio: 0.20509 },
    { grip: 0.5, driven: 'all' as const, ratio: 0.54936 },
    { grip: 0.7, driven: 'all' as const, ratio: 0.94786 },
    { grip: 0.5, driven: ['rear'], ratio: 0.14834 },
    { grip: 0.7, driven: ['rear'], ratio: 0.27469 },
  ];

  it.each(cases)('with grip $grip, driven at $driven, is $ratio of the radius', ({ grip, driven, ratio }) => {
    // a tyre 5 µm deep, 8·10⁻⁵ of the radius: while it climbs the lower ground lets go little by little, over
    // √(2rδ) of its way, which lets it climb 0.1 to 0.3 % of r more
    const hard = limit({ grip, drive: { driven }, stiffness: 3e6 }, underFront);
    expect(hard.size / radius - ratio).toBeGreaterThan(-2e-4);
    expect(hard.size / radius - ratio).toBeLessThan(0.004);
    expect(hard.halt?.by).toBe('grip');
    // and a softer tyre climbs more
    expect(limit({ grip, drive: { driven }, stiffness: 3e5 }, underFront).size).toBeGreaterThan(hard.size);
  });

  it('differs for grips of which each is the limit, and says so', () => {
    const limits = cases.slice(0, 3).map(({ grip }) => limit({ grip }, underFront));
    expect(limits.map(({ halt }) => halt?.says.replace(/[\d.]+/g, '#'))).toEqual(
      Array(3).fill('front needs a grip of # and has #'),
    );
  });
});

describe('the highest step for the whole of a rigid truck', () => {
  /**
   * The rear axle at the edge, the front one h higher on the level: truck pitched by φ, sin φ = h/L. With the edge's normal
   * leaning by θ: μ(Nf + Nr·c) = Nr·s − …, all wheels at the friction limit. Statics of the free body, derived here.
   */
  function rearShort(h: number, mu: number, height: number): number {
    const phi = Math.asin(h / wheelbase);
    const theta = Math.acos(1 - h / radius);
    const [s, c] = [Math.sin(theta), Math.cos(theta)];
    // rear hub at (0, r), edge at (r·s, h), front hub at (L·cos φ, r + h) over its contact at height h
    const [edgeX, frontX] = [radius * s, wheelbase * Math.cos(phi)];
    const [along, up] = [wheelbase / 2, height - radius];
    const cgX = along * Math.cos(phi) - up * Math.sin(phi);
    // both contacts at height h, so moments about the edge hold no horizontal force: Nf·(xf − xe) = W·(xcg − xe)
    const front = (weight * (cgX - edgeX)) / (frontX - edgeX);
    const rear = (weight - front) / (c + mu * s);
    return rear * (s - mu * c) - mu * front;
  }

  it.each([0.3, 0.5])('with grip %f is what the weaker axle climbs', (grip) => {
    const height = 0.12;
    const front = limit({ grip, height, stiffness: 3e6 }, underFront).size;
    const rear = rootOf((h) => rearShort(h, grip, height), 1e-4, 0.9 * radius);
    expect(rear).toBeLessThan(front);
    const whole = limit({ grip, height, stiffness: 3e6 }, stepUp);
    // as above: up to 0.3 % of r more
    expect(whole.size - rear).toBeGreaterThan(-2e-4 * radius);
    expect(whole.size - rear).toBeLessThan(0.004 * radius);
  });
});

describe('the widest trench for a rigid truck', () => {
  /**
   * An axle sunk between the walls, with the far edge's normal leaning by θ, sin θ = w/(2r), the other axle on the level:
   * its hub is r(1 − cos θ) lower. All contacts lie at ground level, so moments hold no horizontal force. Derived here.
   */
  function short(width: number, mu: number, height: number, sunk: 'front' | 'rear'): number {
    const theta = Math.asin(width / (2 * radius));
    const [s, c] = [Math.sin(theta), Math.cos(theta)];
    const phi = (sunk === 'front' ? -1 : 1) * Math.asin((radius * (1 - c)) / wheelbase);
    const [along, up] = [wheelbase / 2, height - radius];
    const cgX = along * Math.cos(phi) - up * Math.sin(phi);
    const rearX = sunk === 'rear' ? radius * s : 0;
    const frontX = wheelbase * Math.cos(phi) + (sunk === 'front' ? radius * s : 0);
    const onFront = (weight * (cgX - rearX)) / (frontX - rearX);
    const [inIt, onLevel] = sunk === 'front' ? [onFront, weight - onFront] : [weight - onFront, onFront];
    return (inIt / (c + mu * s)) * (s - mu * c) - mu * onLevel;
  }

  it.each([0.3, 0.5, 0.7])('with grip %f is what the weaker axle leaves', (grip) => {
    const height = 0.12;
    const expected = Math.min(
      ...(['front', 'rear'] as const).map((sunk) =>
        rootOf((w) => short(w, grip, height, sunk), 1e-4, 1.99 * radius),
      ),
    );
    const found = limit({ grip, height, stiffness: 3e6 }, trench);
    // the tyre sinks on to both edges and its reach grows by √(2rδ) at most, of which it shares one half: 0.6 % of r
    expect(Math.abs(found.size - expected)).toBeLessThan(0.006 * radius);
    expect(found.halt?.by).toBe('grip');
  });
});

describe('the steepest grade of a rigid truck', () => {
  // Gillespie, Wong: gradeability equations (places from memory), centre of gravity mid-wheelbase, h/L = 0.375, μ 0.8.
  // Locked: atan μ. Rear: tan = μ(a/L)/(1 − μh/L). Front: tan = μ(b/L)/(1 + μh/L). Tips over backwards at atan(b/h).
  // Tyres 0.05 mm deep lower the centre of gravity by as much: 0.03 % of the limits with one axle driven.
  it.each([
    { drives: 'all' as const, grip: 0.8, angle: 38.6598, by: 'grip' },
    { drives: ['rear'], grip: 0.8, angle: 29.7449, by: 'grip' },
    { drives: ['front'], grip: 0.8, angle: 17.1027, by: 'grip' },
    { drives: 'all' as const, grip: 2.5, angle: 53.1301, by: 'tipping' },
  ])('driven at $drives with grip $grip is $angle degrees: $by', ({ drives, grip, angle, by }) => {
    const found = limit({ grip, drive: { driven: drives } }, gradeUp);
    expect(Math.abs(found.size / degree / angle - 1)).toBeLessThan(0.0015);
    expect(found.halt?.by).toBe(by);
  });

  it('downwards with all wheels is what its grip holds: atan μ', () => {
    const found = limit({ grip: 0.8 }, gradeDown);
    expect(Math.abs(found.size / degree / 38.6598 - 1)).toBeLessThan(0.0015);
  });

  it('with too little torque is asin(ΣT/(r·W)) on wheels of equal load', () => {
    // centre of gravity at the hubs' height, on the slope at h·sin over the contacts: the rear axle carries
    // W(cos/2 + sin·h/L) and all axles use the same grip tan, so its torque is r·tan times that load
    const torque = 0.4;
    const height = radius;
    const sine = rootOf(
      (x) => {
        const cosine = Math.sqrt(1 - x * x);
        return radius * (x / cosine) * weight * (cosine / 2 + (x * height) / wheelbase) - torque;
      },
      0.01,
      0.9,
    );
    const found = limit({ grip: 1.5, height, drive: { torquePerWheel: torque } }, gradeUp);
    expect(Math.abs(found.size / Math.asin(sine) - 1)).toBeLessThan(0.002);
    expect(found.halt?.by).toBe('torque');
  });
});

describe('where the underside meets the ground', () => {
  // ISO 612, SAE J1100: planes tangent to the standing tyres (from memory); geometry: approach of a point 100 mm ahead of
  // the front hub and 70 mm up on wheels of 120 mm; breakover of a point mid-wheelbase, 60 mm up, tangents to both wheels.
  it('the steepest grade up is the approach angle', () => {
    const belly = [
      { x: 0, z: 0.07 },
      { x: 0.1, z: 0.07 },
    ];
    const found = limit({ grip: 1.5, height: 0.05, belly }, gradeUp);
    // tyres 0.05 mm deep, of a clearance of 70 mm: 0.1 %
    expect(Math.abs(found.size / degree / 42.3675 - 1)).toBeLessThan(0.002);
    expect(found.halt?.by).toBe('belly');
  });

  it('the steepest grade down is the breakover angle', () => {
    const belly = [
      { x: -0.1601, z: 0.06 },
      { x: -0.1599, z: 0.06 },
    ];
    const found = limit({ grip: 1.5, height: 0.05, belly }, gradeDown);
    expect(Math.abs(found.size / degree / 44.0486 - 1)).toBeLessThan(0.002);
    expect(found.halt?.by).toBe('belly');
  });
});

describe('a load', () => {
  it('twice as heavy leaves limits of grip as they are, and halves those of torque', () => {
    const rules = { sense: 1, noStops: [] } as const;
    const hard = truck({ grip: 0.5, stiffness: 3e6 });
    // tyres 10 µm deep instead of 5
    expect(
      limitOf(withItems(hard, 2), underFront, rules).size / limitOf(hard, underFront, rules).size,
    ).toBeCloseTo(1, 2);
    const weak = truck({ grip: 1.5, height: 0.01, drive: { torquePerWheel: 0.4 } });
    const angle = (factor: number) => limitOf(withItems(weak, factor), gradeUp, rules).size;
    // T = r·W·sin α/2 with the centre of gravity on the ground (10 mm over it: 1.6 % of sin α goes to the rear axle)
    expect(Math.abs((2 * Math.sin(angle(2))) / Math.sin(angle(1)) - 1)).toBeLessThan(0.02);
  });
});
