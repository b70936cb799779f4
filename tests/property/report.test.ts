import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { channels, type RunEvent } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';
import { appraise } from '../../sim/report/appraise.ts';
import { compareReports } from '../../sim/report/changes.ts';
import { criterionKinds } from '../../sim/report/criteria/registry.ts';
import type { CriterionKind } from '../../sim/report/criterion.ts';
import { recordingOf, truck } from '../unit/report/fixture.ts';

const kinds = criterionKinds as readonly unknown[] as readonly CriterionKind[];
const everyCriterion = kinds.map((kind) => ({ kind: kind.kind, ...kind.fields.parse(kind.sample) }));
const mechanism = truck();

/** Any figure that a column may hold, and what it must not: huge, tiny, not a number, infinite. */
const figure = fc.oneof(
  fc.double(),
  fc.double({ min: -100, max: 100, noNaN: true }),
  fc.constantFrom(0, -0, 1e308, -1e308, Number.NaN, Number.POSITIVE_INFINITY),
);
const plain = fc.double({ min: 0, max: 1000, noNaN: true });

const event: fc.Arbitrary<RunEvent> = fc
  .record({
    time: plain,
    station: plain,
    wheelStation: plain,
    wheel: fc.constantFrom('front', 'middle', 'rear', 'nobody'),
    duration: figure,
    height: figure,
    member: fc.constantFrom('front axle', 'rear beam'),
  })
  .chain(({ time, station, wheelStation, wheel, duration, height, member }) => {
    const at = { time, station };
    return fc.constantFrom<RunEvent>(
      { kind: 'lift-off', ...at, wheel, wheelStation },
      { kind: 'touch-down', ...at, wheel, wheelStation, duration, height },
      { kind: 'grip-limit', ...at, wheel, wheelStation },
      { kind: 'stop-hit', ...at, member, side: 'bump' },
      { kind: 'body-touch', ...at },
    );
  });

const run = fc
  .record({
    frames: fc.integer({ min: 1, max: 5 }),
    values: fc.array(figure, { minLength: 61, maxLength: 61 }),
    events: fc.array(event, { maxLength: 8 }),
    loads: fc.array(figure, { minLength: 3, maxLength: 3 }),
    end: fc.record({
      kind: fc.constantFrom('arrived' as const, 'time-up' as const, 'tipped' as const),
      time: plain,
      station: plain,
    }),
  })
  .map(({ frames, values, events, loads, end }) => {
    let next = 0;
    const any = () => values[next++ % values.length] ?? 0;
    const fill = Object.fromEntries(
      Object.keys(channels)
        .filter((c) => c !== 'time')
        .map((c) => [c, any]),
    );
    return recordingOf(mechanism, { frames, fill, events, end, standing: { loads } });
  });

const reportOf = (recording: Parameters<typeof appraise>[2]): Report =>
  appraise({ title: 'a test', vehicle: { name: 'truck' }, criteria: everyCriterion }, mechanism, recording);

/** Paths of numbers that are not finite, anywhere in a value. */
function notFinite(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}

describe('a report', () => {
  it('never holds a number that is not finite, nor says one, whatever a recording holds', () => {
    fc.assert(
      fc.property(run, (recording) => {
        const { verdicts, measures } = reportOf(recording);
        expect(notFinite({ verdicts, measures })).toEqual([]);
        for (const { says, shown, asks } of verdicts)
          expect(`${asks} ${shown} ${says}`).not.toMatch(/NaN|Infinity|undefined|null/);
      }),
      { numRuns: 300 },
    );
  });

  it('keeps shares of time between 0 and 1, and moments inside the recording', () => {
    fc.assert(
      fc.property(run, (recording) => {
        const report = reportOf(recording);
        for (const wheel of report.wheels)
          expect(wheel.timeOff).toSatisfy((share: number) => share >= 0 && share <= 1);
        for (const { moment } of [...report.measures, ...report.verdicts]) {
          if (moment !== undefined)
            expect(moment.frame).toSatisfy(
              (f: number) => Number.isInteger(f) && f >= 0 && f < recording.frames,
            );
        }
      }),
      { numRuns: 200 },
    );
  });

  it('does not differ from itself, and differs back and forth alike', () => {
    fc.assert(
      fc.property(run, run, (one, other) => {
        const [a, b] = [reportOf(one), reportOf(other)];
        expect(compareReports(a, a)).toEqual([]);
        expect(compareReports(a, b)).toHaveLength(compareReports(b, a).length);
        expect(notFinite(compareReports(a, b))).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});
