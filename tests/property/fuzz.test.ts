/*
 * Whatever reads, runs: nothing but documented errors, no figure that is not finite, and always an end. A fixed row of
 * odd scenarios; the drives are cut to a hundredth of a second.
 *
 * Seen red: the use of grip taken where there is none (0/0).
 */
import { describe, expect, it } from 'vitest';
import { chooseSubstep } from '../../sim/dynamics/substep.ts';
import {
  appraise,
  compile,
  crawl,
  drive,
  loadScenario,
  type Scenario,
  standOn,
  standReport,
} from '../../sim/index.ts';
import { oddScenario } from '../rigs/odd.ts';

/** Path of the first number below `value` that is not finite. */
function notFinite(value: unknown, path = ''): string | undefined {
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : `${path} is ${value}`;
  if (value instanceof Float64Array) {
    const at = value.findIndex((figure) => !Number.isFinite(figure));
    return at < 0 ? undefined : `${path}[${at}] is ${value[at]}`;
  }
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner, `${path}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The scenario with its drive cut to 0.01 s; nothing when even that takes more than some thousand substeps. */
function cut(scenario: Scenario): Scenario[] {
  const { perFrame } = chooseSubstep(compile(scenario), 2000, undefined);
  const run = { ...scenario.run, frames: 2000, time: 0.01 };
  return perFrame > 100 ? [] : [{ ...scenario, run }];
}

/** Runs a scenario every way there is; says how each way ended. */
function tried(scenario: Scenario): string[] {
  const stood = standOn(scenario);
  expect(notFinite(stood, 'stand')).toBeUndefined();
  const ways = [`stand ${stood.kind}`];
  if (stood.kind === 'stands')
    expect(notFinite(standReport(scenario, stood.standing), 'stand report')).toBeUndefined();
  const runs = [
    ...(scenario.vehicle.drive.speed === 0 ? [] : [crawl(scenario, { stations: 20 })]),
    // one that does not stand is let sink for up to 200,000 substeps
    ...(stood.kind === 'stands' ? cut(scenario).map((short) => drive(short)) : []),
  ];
  for (const run of runs) {
    expect(notFinite(run, run.mode)).toBeUndefined();
    expect(notFinite(appraise(scenario, run), `${run.mode} report`)).toBeUndefined();
    ways.push(`${run.mode} ${run.end.kind}`);
  }
  return ways;
}

describe('odd but sound scenarios', () => {
  it('end in every way that there is, with finite figures only', () => {
    const ways = new Map<string, number>();
    for (let seed = 1; seed <= 20; seed++) {
      const read = loadScenario(oddScenario(seed));
      for (const way of read.ok ? tried(read.value) : ['refused']) ways.set(way, (ways.get(way) ?? 0) + 1);
    }
    // most of the row gets past reading, or it would say nothing
    expect(ways.get('refused') ?? 0).toBeLessThan(8);
    expect(ways.get('stand stands')).toBeGreaterThan(6);
  });
});
