/*
 * Every registered kind of force element keeps the words of its contract (sim/elements/element.ts), for its sample,
 * for samples with all figures changed at random, and after any history.
 *
 * Tried by breaking the code, each seen red here: the sign of `spring` or the ½ of `energy` in hooke.ts; the limit of
 * the damper and the side of the effort in stop.ts; the anchor, the energy beyond the reach and the loss in bristle.ts;
 * the growth of the rubber's effort and its energy beyond the straight; the last slope, `drawnAt` and the stiffness of
 * a table; the greater rate of a damper; `withinReach` taken out.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementKind, ElementLaw } from '../../sim/elements/element.ts';
import { elementKinds } from '../../sim/elements/registry.ts';

/** Round-off of one operation on doubles, and how many of them we grant a law. */
const EPSILON = 2.2e-16;
const OPERATIONS = 100;

const kinds = elementKinds as unknown as readonly ElementKind[];

function lawOf(kind: ElementKind, written: unknown): ElementLaw | undefined {
  const read = kind.fields.safeParse(written);
  return read.success ? kind.law(read.data) : undefined;
}

/** The same document with every number in it multiplied by the next factor. */
function changed(written: unknown, factors: Iterator<number>): unknown {
  if (typeof written === 'number') return written * (factors.next().value as number);
  if (Array.isArray(written)) return written.map((part) => changed(part, factors));
  if (typeof written !== 'object' || written === null) return written;
  return Object.fromEntries(Object.entries(written).map(([key, part]) => [key, changed(part, factors)]));
}

/** Laws of a kind: its sample with figures changed by up to `decades` powers of ten, where its fields allow that. */
function lawsOf(kind: ElementKind, decades: number): fc.Arbitrary<ElementLaw> {
  const power = fc.double({ min: -decades, max: decades, noNaN: true });
  return fc
    .array(power, { minLength: 24, maxLength: 24 })
    .map((powers) => lawOf(kind, changed(kind.sample, powers.map((p) => 10 ** p).values())))
    .filter((law) => law !== undefined);
}

/** A coordinate of the kind's range. */
const coordinate = ({ range: [min, max] }: ElementKind) => fc.double({ min, max, noNaN: true });

/** Memory of a law after it was led through the coordinates. */
function memoryAfter(law: ElementLaw, path: readonly number[]): Float64Array {
  const memory = new Float64Array(law.memory);
  for (const [i, to] of path.entries()) law.advance?.(path[i - 1] ?? 0, to, memory);
  return memory;
}

/** Leads a law once round a closed path in small steps: work put in and energy lost on the way, J, and the error bound. */
function lap(law: ElementLaw, path: readonly number[], memory: Float64Array) {
  const steps = 4000;
  // Not from 0: below 1e-300 doubles lose their digits.
  let [work, lost, bound] = [0, 0, 1e-300];
  path.forEach((from, corner) => {
    const to = path[(corner + 1) % path.length] as number;
    for (let i = 0; i < steps; i++) {
      const a = from + ((to - from) * i) / steps;
      const b = from + ((to - from) * (i + 1)) / steps;
      work -= 0.5 * (law.spring(a, memory) + law.spring(b, memory)) * (b - a);
      // Trapezoid: a bend of the effort by Δc within a step of d costs at most Δc·d²/4, a smooth curve less.
      bound += (Math.abs(law.stiffness(a, memory) - law.stiffness(b, memory)) * (b - a) ** 2) / 4;
      bound += EPSILON * OPERATIONS * law.energy(b, memory);
      lost += law.advance?.(a, b, memory) ?? 0;
    }
  });
  return { work, lost, bound };
}

it('the kinds have names of their own, in lower case with hyphens', () => {
  expect(new Set(kinds.map((k) => k.kind)).size).toBe(kinds.length);
  expect(kinds.filter((k) => !/^[a-z]+(-[a-z]+)*$/.test(k.kind))).toEqual([]);
});

describe.each(kinds.map((kind) => [kind.kind, kind] as const))('%s', (_name, kind) => {
  const any = {
    law: lawsOf(kind, 0.3),
    past: fc.array(coordinate(kind), { maxLength: 4 }),
    x: coordinate(kind),
  };
  const span = kind.range[1] - kind.range[0];

  it('has a sample that its own fields read, a source, and something to act along', () => {
    expect(kind.fields.safeParse(kind.sample).error).toBeUndefined();
    expect(kind.source.length).toBeGreaterThan(10);
    expect(kind.acts.length).toBeGreaterThan(0);
    expect(span).toBeGreaterThan(0);
  });

  it('refuses a field that it does not know', () => {
    expect(kind.fields.safeParse({ ...(kind.sample as object), colour: 3 }).success).toBe(false);
  });

  it('does something within its range', () => {
    const law = lawOf(kind, kind.sample) as ElementLaw;
    const memory = new Float64Array(law.memory);
    const efforts = kind.range.flatMap((x) => [law.spring(x, memory), law.loss(x, 0.1), law.loss(x, -0.1)]);
    expect(efforts.some((effort) => effort !== 0)).toBe(true);
  });

  it('has an effort that is the falling slope of its energy', () => {
    fc.assert(
      fc.property(any.law, any.past, any.x, (law, past, x) => {
        const memory = memoryAfter(law, past);
        const [low, high] = [x - 1e-5 * span, x + 1e-5 * span];
        const slope = (law.energy(high, memory) - law.energy(low, memory)) / (high - low);
        // The central difference errs by round-off of U over 2h, by h/2·Δc at a bend and by h²·U'''/6 ≤ h·Δc beside it.
        const bend = Math.abs(law.stiffness(high, memory) - law.stiffness(low, memory)) * (high - low);
        const most = Math.max(law.energy(low, memory), law.energy(high, memory));
        const roundOff = (EPSILON * OPERATIONS * most) / (high - low);
        expect(Math.abs(law.spring(x, memory) + slope)).toBeLessThanOrEqual(bend + roundOff);
      }),
      { numRuns: 400 },
    );
  });

  it('has a stiffness that is the slope of its effort, and never below zero', () => {
    fc.assert(
      fc.property(any.law, any.past, any.x, (law, past, x) => {
        const memory = memoryAfter(law, past);
        const [low, high] = [x - 1e-5 * span, x + 1e-5 * span];
        const slope = (law.spring(low, memory) - law.spring(high, memory)) / (high - low);
        const stiffness = law.stiffness(x, memory);
        // Between the two points the stiffness lies between its values at them, at a bend and beside it.
        const bend = Math.abs(law.stiffness(high, memory) - law.stiffness(low, memory));
        const most = Math.max(Math.abs(law.spring(low, memory)), Math.abs(law.spring(high, memory)));
        const roundOff = (EPSILON * OPERATIONS * most) / (high - low) + EPSILON * OPERATIONS * stiffness;
        expect(Math.abs(stiffness - slope)).toBeLessThanOrEqual(bend + roundOff);
        expect(stiffness).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 400 },
    );
  });

  it('stores no energy below zero', () => {
    fc.assert(
      fc.property(any.law, any.past, any.x, (law, past, x) => {
        expect(law.energy(x, memoryAfter(law, past))).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('brakes and never drives, no steeper than its damping says', () => {
    const speed = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(any.law, any.x, speed, speed, (law, x, v, w) => {
        expect(law.loss(x, v) * v).toBeLessThanOrEqual(0);
        const steepest = law.damping * Math.abs(v - w);
        const difference = Math.abs(law.loss(x, v) - law.loss(x, w));
        expect(difference).toBeLessThanOrEqual(steepest + EPSILON * OPERATIONS * law.damping * 20);
      }),
    );
  });

  it('loses energy, if any, where its memory moves on, and comes with as much memory as it says', () => {
    const law = lawOf(kind, kind.sample) as ElementLaw;
    expect([law.advance !== undefined, law.rest !== undefined]).toEqual([law.memory > 0, law.memory > 0]);
    fc.assert(
      fc.property(any.law, any.past, any.x, (moved, past, x) => {
        const memory = memoryAfter(moved, past);
        const before = moved.energy(x, memory);
        const lost = moved.advance?.(past.at(-1) ?? 0, x, memory) ?? 0;
        expect(lost).toBeGreaterThanOrEqual(0);
        // What is lost is what the energy falls by when the memory catches up, to the round-off of that energy.
        expect(Math.abs(before - moved.energy(x, memory) - lost)).toBeLessThanOrEqual(1e-12 * before);
      }),
    );
  });

  it('comes to rest with no friction in its effort and none of its energy', () => {
    fc.assert(
      fc.property(
        any.law,
        any.past,
        any.x,
        fc.double({ min: 0, max: span, noNaN: true }),
        (law, past, x, way) => {
          const memory = memoryAfter(law, past);
          law.rest?.(x, memory);
          const effort = law.spring(x, memory);
          const energy = law.energy(x, memory);
          expect(law.advance?.(x, x, memory) ?? 0).toBe(0);
          // Come from below or from above, friction pulls one way or the other: rest lies between, at the least energy.
          const [below, above] = [x - way, x + way].map((from) => {
            const led = memoryAfter(law, [from]);
            law.rest?.(from, led);
            law.advance?.(from, x, led);
            return { effort: law.spring(x, led), energy: law.energy(x, led) };
          }) as [{ effort: number; energy: number }, { effort: number; energy: number }];
          const roundOff = EPSILON * OPERATIONS * Math.abs(effort);
          expect(below.effort).toBeLessThanOrEqual(effort + roundOff);
          expect(above.effort).toBeGreaterThanOrEqual(effort - roundOff);
          expect(energy).toBeLessThanOrEqual(
            Math.min(below.energy, above.energy) * (1 + EPSILON * OPERATIONS),
          );
        },
      ),
    );
  });

  it('never returns more from a closed path than was put in, and accounts for the rest', () => {
    const path = fc.array(coordinate(kind), { minLength: 2, maxLength: 4 });
    fc.assert(
      fc.property(any.law, any.past, path, (law, past, corners) => {
        const memory = memoryAfter(law, [...past, corners[0] as number]);
        lap(law, corners, memory);
        // From the second lap on, memory comes back to where it was, so nothing but loss can be left of the work.
        const { work, lost, bound } = lap(law, corners, memory);
        expect(work).toBeGreaterThanOrEqual(-bound);
        expect(Math.abs(work - lost)).toBeLessThanOrEqual(bound);
      }),
      { numRuns: 25 },
    );
  });

  it('stays finite for any finite figure, coordinate, speed and history', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(lawsOf(kind, 6), fc.array(number, { maxLength: 3 }), number, number, (law, past, x, v) => {
        const memory = memoryAfter(law, past);
        const lost = law.advance?.(past.at(-1) ?? 0, x, memory) ?? 0;
        const figures = [
          law.energy(x, memory),
          law.spring(x, memory),
          law.loss(x, v),
          law.stiffness(x, memory),
        ];
        expect(
          [...figures, lost, law.damping, ...memory, ...law.corners].filter((f) => !Number.isFinite(f)),
        ).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
});
