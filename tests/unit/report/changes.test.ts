import { describe, expect, it } from 'vitest';
import { appraise } from '../../../sim/report/appraise.ts';
import { compareReports } from '../../../sim/report/changes.ts';
import { hop, recordingOf, truck, type Written } from './fixture.ts';

const criteria = [
  { kind: 'wheel-load', least: 0.2 },
  { kind: 'time-off-ground', longest: 0.05 },
  { kind: 'reaches' },
];

function report(
  written: Written = {},
  asks: readonly { readonly kind: string }[] = criteria,
  mechanism = truck(),
) {
  return appraise(
    { title: 'a test', vehicle: { name: 'truck' }, criteria: asks },
    mechanism,
    recordingOf(mechanism, written),
  );
}

describe('compareReports', () => {
  it('finds nothing between two equal runs', () => {
    expect(compareReports(report(), report())).toEqual([]);
  });

  it('gives verdicts that turned first, with values before and after', () => {
    const before = report({ events: hop('rear', 0.5, 0.062) });
    const after = report({ events: hop('rear', 0.5, 0.03) });
    const [turned, ...rest] = compareReports(before, after);
    expect(turned).toMatchObject({
      kind: 'verdict',
      turn: 'now passes',
      asks: 'No wheel is off the ground longer than 50 ms',
    });
    expect(turned).toMatchObject({
      before: { value: 0.062, pass: false },
      after: { value: 0.03, pass: true },
    });
    expect(turned?.difference).toBeCloseTo(-0.032, 12);
    expect(rest.map((c) => (c.kind === 'measure' ? `${c.name} ${c.of ?? ''}` : c.kind))).toEqual([
      'longestOff rear',
      'wheelTimeOff rear',
      'wheelLongestOff rear',
    ]);
    expect(compareReports(after, before)[0]).toMatchObject({ turn: 'now fails' });
  });

  it('gives verdicts whose worst value only moved', () => {
    const dip = (load: number): Written => ({
      fill: { load: (_, wheel, frame) => (wheel === 1 && frame === 9 ? load : 20) },
    });
    const [moved] = compareReports(report(dip(10)), report(dip(8)));
    expect(moved).toMatchObject({
      kind: 'verdict',
      turn: 'same',
      before: { value: 0.5 },
      after: { value: 0.4 },
    });
    expect(moved?.difference).toBeCloseTo(-0.1, 12);
  });

  it('gives verdicts that came and went', () => {
    const changes = compareReports(report({}, [{ kind: 'reaches' }]), report({}, [{ kind: 'no-stop-hit' }]));
    expect(changes.map((c) => c.kind === 'verdict' && [c.turn, c.asks, c.difference])).toEqual([
      ['new', 'Nothing hits its stop', null],
      ['gone', 'The vehicle reaches the end of its run', null],
    ]);
  });

  it('knows a criterion again whose limit was edited', () => {
    const flight = { events: hop('rear', 0.5, 0.062) };
    const ask = (longest: number) => [{ kind: 'time-off-ground', longest }];
    expect(compareReports(report(flight, ask(0.05)), report(flight, ask(0.1)))).toMatchObject([
      { turn: 'now passes', before: { limit: 0.05 }, after: { limit: 0.1 }, difference: 0 },
    ]);
  });

  it('gives mass, standing loads and measures in SI with their difference', () => {
    const before = report({ standing: { loads: [20, 20, 20] } }, []);
    const after = report({ standing: { loads: [22, 20, 20] } }, [], truck({ mass: 6.2 }));
    const changes = compareReports(before, after);
    expect(changes).toContainEqual(
      expect.objectContaining({
        kind: 'figure',
        name: 'mass',
        unit: 'kg',
        before: 6,
        after: 6.2,
        difference: expect.closeTo(0.2, 12),
      }),
    );
    expect(changes).toContainEqual({
      kind: 'figure',
      name: 'standingLoad',
      title: 'Standing load',
      unit: 'N',
      of: 'front',
      before: 20,
      after: 22,
      difference: 2,
    });
    expect(changes).toContainEqual(
      expect.objectContaining({
        kind: 'measure',
        name: 'wheelLeastLoadShare',
        of: 'front',
        before: 1,
        after: 20 / 22,
      }),
    );
  });

  it('shows a measure that one of the reports does not have without a difference', () => {
    const bare = truck({ belly: { body: 0, points: [] } });
    const changes = compareReports(report({}, [], bare), report({}, []));
    expect(changes).toMatchObject([
      { kind: 'measure', name: 'leastClearance', before: null, after: 0.05, difference: null },
    ]);
  });

  it('matches overall measures even when another wheel is the worst now', () => {
    const off = (wheel: string) => report({ events: hop(wheel, 0.5, wheel === 'rear' ? 0.03 : 0.04) }, []);
    const changes = compareReports(off('rear'), off('front')).filter(
      (c) => c.kind === 'measure' && c.name === 'longestOff',
    );
    expect(changes).toMatchObject([{ of: 'front', before: 0.03, after: 0.04 }]);
  });

  it('takes rounding for no change', () => {
    const dip = (load: number): Written => ({ fill: { load } });
    expect(compareReports(report(dip(20)), report(dip(20 * (1 + 4e-16))))).toEqual([]);
  });
});
