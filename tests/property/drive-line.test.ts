/*
 * What must hold for any drive line: the books of energy, bit-identical reruns, losses that lose.
 *
 * Seen red: losses of gears left out; a rotor without energy; shafts before freewheels whose inertia follows the state of
 * what hangs on them.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import { someGround, someRig } from '../rigs/chance.ts';
import { type DrivelineInput, driven } from '../rigs/drive-line.ts';
import type { Rig } from '../rigs/vehicle.ts';

type Part = DrivelineInput['parts'][number];

/** What stands between two branchings. */
const between = fc.constantFrom<readonly object[]>(
  [{ kind: 'shaft' }],
  [{ kind: 'reduction', ratio: 1.5, efficiency: 0.9 }],
  // locks itself, in line
  [{ kind: 'reduction', mesh: 'planetary', ratio: 4, efficiency: 0.45, backEfficiency: 0 }],
  [{ kind: 'clutch', slipTorque: 0.4 }],
  [{ kind: 'freewheel' }, { kind: 'shaft' }],
);
const split = fc.constantFrom<object>(
  { kind: 'shaft' },
  { kind: 'differential', mode: 'open' },
  { kind: 'differential', mode: 'locked' },
  { kind: 'differential', mode: 'limited', bias: 2.5, preload: 0.01 },
);
const final = fc.constantFrom<object>(
  { kind: 'reduction', ratio: 3, mesh: 'bevel' },
  { kind: 'reduction', ratio: 3, mesh: 'spur', sense: 'opposite' },
);
const choice = fc.record({
  way: fc.tuple(between, between, between, between),
  split: fc.array(split, { minLength: 2, maxLength: 2 }),
  final,
  motors: fc.constantFrom<'one' | 'two on a shaft' | 'two with gears' | 'one each'>(
    'one',
    'two on a shaft',
    'two with gears',
    'one each',
  ),
  inertia: fc.constantFrom(0, 1e-7, 1e-5),
  sag: fc.boolean(),
});

type Choice = typeof choice extends fc.Arbitrary<infer T> ? T : never;

/** A tree over these axle lines: the first behind one branch, the others behind the other. */
function treeOver(
  names: readonly { readonly name: string; readonly on: string }[],
  c: Choice,
): DrivelineInput {
  const parts: object[] = [];
  const row = (from: string | readonly string[], name: string, kinds: readonly object[]) => {
    let at = from;
    kinds.forEach((kind, i) => {
      parts.push({ name: `${name} ${i}`, from: at, ...kind });
      at = `${name} ${i}`;
    });
    return at as string;
  };
  const motor = (name: string) => {
    parts.push({
      name,
      kind: 'motor',
      stallTorque: 0.05,
      noLoadSpeed: 600,
      inertia: c.inertia,
      axis: 'mesh' in c.final && c.final.mesh === 'bevel' ? 'lengthwise' : 'across',
      stallCurrent: 12,
      noLoadCurrent: 0.4,
    });
    return name;
  };
  const ends = (from: string, lines: typeof names) =>
    lines.forEach(({ name, on }) => {
      parts.push({ name: `${name} final`, from, on, wheels: [name], ...c.final });
    });
  const [first, ...rest] = names;
  const [a, b, d, e] = c.way;
  if (c.motors === 'one each') {
    ends(row(motor('m1'), 'a', [...a, ...b]), first === undefined ? [] : [first]);
    ends(row(row(motor('m2'), 'b', [...d, ...e]), 'split', [c.split[1] as object]), rest);
  } else {
    const source: string | readonly string[] =
      c.motors === 'one'
        ? motor('m1')
        : c.motors === 'two on a shaft'
          ? [motor('m1'), motor('m2')]
          : [
              row(motor('m1'), 'g1', [{ kind: 'reduction', ratio: 2 }]),
              row(motor('m2'), 'g2', [{ kind: 'reduction', ratio: 2, efficiency: 0.8 }]),
            ];
    const top = row(source, 'top', [{ kind: 'reduction', ratio: 4 }, ...a, c.split[0] as object]);
    ends(row(top, 'front', b), first === undefined ? [] : [first]);
    ends(row(row(top, 'rear', d), 'rear split', [c.split[1] as object]), rest);
  }
  return {
    ...(c.sag
      ? { battery: { voltage: 7, resistance: 0.1, currentLimit: 20 } }
      : { battery: { voltage: 7, resistance: 0 } }),
    parts: parts as Part[],
  } as DrivelineInput;
}

/** Freewheels where they let go of what holds itself, and of both sides of an open differential, by rotors without inertia. */
const free = fc.constantFrom<readonly object[]>([{ kind: 'freewheel' }, { kind: 'shaft' }]);
const freewheeling = choice.chain((c) =>
  fc.tuple(free, between, free, between, fc.constantFrom(0, 1e-7)).map(
    ([a, b, d, e, inertia]): Choice => ({
      ...c,
      way: [a, b, d, e],
      split: [{ kind: 'differential', mode: 'open' }, c.split[1] as object],
      inertia,
    }),
  ),
);

const vehicleWith = (line: fc.Arbitrary<Choice>) =>
  fc.tuple(someRig, someGround, line).map(([rig, ground, c]): { rig: Rig; line: DrivelineInput } => ({
    rig: {
      ...rig,
      ...ground,
      drive: { speed: 0.3, acceleration: 1 },
      run: { start: 1, until: 1.7, time: 3 },
    },
    line: treeOver(
      rig.axles.map(({ name, on }) => ({ name, on: on ?? 'chassis' })),
      c,
    ),
  }));
const vehicle = vehicleWith(choice);

/** Work less energy less losses, greatest of a run, over the work and the losses. */
function gapOf({ rig, line }: { readonly rig: Rig; readonly line: DrivelineInput }): number {
  const run = driven(rig, line);
  expect(run.end.kind).not.toBe('diverged');
  const [work, energy, lost] = [column(run, 'work'), column(run, 'energy'), column(run, 'lost')];
  const gap = Math.max(...work.map((w, f) => Math.abs(w - (energy[f] as number) - (lost[f] as number))));
  return gap / (Math.max(...work) + Math.max(...lost));
}

describe('any drive line', () => {
  it('keeps its books: work, energy and losses agree within 2.5 % of what passed through', () => {
    fc.assert(
      // The method is of the first order in h: 2.2 % at most of those drawn (most of them under 0.3 %), which halves with
      // the substep
      fc.property(vehicle, (each) => {
        expect(gapOf(each)).toBeLessThan(0.025);
      }),
      { seed: 1961, numRuns: 25, endOnFailure: true },
    );
  }, 240_000);

  it('keeps them where freewheels let go before gears that hold themselves and before open differentials', () => {
    fc.assert(
      fc.property(vehicleWith(freewheeling), (each) => {
        expect(gapOf(each)).toBeLessThan(0.025);
      }),
      { seed: 14, numRuns: 25, endOnFailure: true },
    );
  }, 240_000);

  it('does the same again, bit for bit', () => {
    fc.assert(
      fc.property(vehicle, ({ rig, line }) => {
        expect(driven(rig, line).block).toEqual(driven(rig, line).block);
      }),
      { seed: 77, numRuns: 4, endOnFailure: true },
    );
  }, 120_000);

  it('never lets a loss give energy', () => {
    fc.assert(
      fc.property(vehicle, ({ rig, line }) => {
        const run = driven(rig, line);
        const lost = column(run, 'lost');
        const most = lost.at(-1) as number;
        for (let f = 1; f < lost.length; f++)
          expect((lost[f] as number) - (lost[f - 1] as number)).toBeGreaterThan(-1e-3 * most);
      }),
      { seed: 5, numRuns: 6, endOnFailure: true },
    );
  }, 120_000);
});
