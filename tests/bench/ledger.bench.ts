/*
 * What the ledger costs, on one core and warm. Rows of the table are wall time; the lines above it take processor time and
 * hold it against what the project promises: the ledger of a crossing with 200 stations and 40 parts within 20 ms, the
 * largest step over mass at 12 points and more within 1 s.
 */
import { readFileSync } from 'node:fs';
import { bench, describe } from 'vitest';
import { compile, layGround, loadScenario } from '../../sim/index.ts';
import { alternativesOf } from '../../sim/ledger/alternatives.ts';
import { crossRegardless } from '../../sim/ledger/crossing.ts';
import { massCurve } from '../../sim/ledger/curve.ts';
import { ledgerOf } from '../../sim/ledger/ledger.ts';
import { greatestMass } from '../../sim/ledger/mass.ts';
import type { ScenarioInput } from '../../sim/scenario/schema.ts';

const say = (line: string) => process.stdout.write(`${line}\n`);
const stations = 200;

const document = JSON.parse(
  readFileSync(new URL('../../scenarios/cairn-6x6-shafts.json', import.meta.url), 'utf8'),
) as ScenarioInput;

/** The same drive line with shafts put in a row before its joints, until it has so many parts. */
function withParts(count: number): ScenarioInput {
  const { driveline } = document.vehicle;
  const parts = [...(driveline?.parts ?? [])];
  const added = count - parts.length;
  const shafts = Array.from({ length: added }, (_, i) => ({
    name: `shaft ${i + 1}`,
    kind: 'shaft' as const,
    from: i === 0 ? 'transfer gears' : `shaft ${i}`,
    rating: '0.9 N m',
  }));
  const moved = parts.map((part) =>
    part.from === 'transfer gears' ? { ...part, from: `shaft ${added}` } : part,
  );
  return {
    ...document,
    vehicle: { ...document.vehicle, driveline: { ...driveline, parts: [...moved, ...shafts] } },
  } as ScenarioInput;
}

function ready(input: unknown) {
  const read = loadScenario(input);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { scenario: read.value, ground: layGround(read.value), mechanism: compile(read.value) };
}

/** Processor time of one run, ms: the median of several, after some to warm up. */
function processorTime(run: () => unknown, runs: number): number {
  for (let n = 0; n < Math.ceil(runs / 3); n++) run();
  const times = Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e3;
  });
  return times.sort((a, b) => a - b)[runs >> 1] ?? 0;
}

const forty = ready(withParts(40));
const truck = ready(document);
const { recording } = crossRegardless(forty.scenario, forty.ground, stations);
const few = { iterations: 10, time: 0, warmupIterations: 5, warmupTime: 0 };

describe('the ledger', () => {
  const whole = () => crossRegardless(forty.scenario, forty.ground, stations, forty.mechanism);
  say(
    `ledger of a crossing with ${recording.frames} stations and ${forty.mechanism.driveline?.parts.length} parts: ${processorTime(() => ledgerOf(forty.mechanism, recording), 40).toFixed(1)} ms, with the crossing itself ${processorTime(whole, 40).toFixed(1)} ms; promised 20`,
  );
  say(
    `greatest mass ${processorTime(() => greatestMass(truck.scenario, truck.ground), 5).toFixed(0)} ms; largest step over mass, ${massCurve(truck.scenario).points.length} points: ${processorTime(() => massCurve(truck.scenario), 7).toFixed(0)} ms, promised 1000`,
  );
  say(
    `what would help: ${processorTime(() => alternativesOf(truck.scenario, truck.ground), 3).toFixed(0)} ms`,
  );
  bench(`ledger of ${stations} stations and 40 parts, with its crossing`, () => void whole(), few);
  bench('largest step over mass', () => void massCurve(truck.scenario), few);
});
