import { problemLine } from '../../shared/problem.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { alternativesOf, topSpeedOf } from '../../sim/ledger/alternatives.ts';
import { crossRegardless } from '../../sim/ledger/crossing.ts';
import { massCurve } from '../../sim/ledger/curve.ts';
import { firstToGive } from '../../sim/ledger/ledger.ts';
import { greatestMass } from '../../sim/ledger/mass.ts';
import { limitsOf } from '../../sim/limits/limits.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { mapOver } from '../../sim/studies/map.ts';
import { influencesOf } from '../../sim/studies/matters.ts';
import { planesOf } from '../../sim/studies/planes.ts';
import type { StudyNews, StudyOrder, ToldLimits, ToldMass, ToldRemedies } from './study-protocol.ts';

const say = (news: StudyNews): void => self.postMessage(news);

/** @throws Error with all problems of a document that is no good */
function scenarioOf(document: unknown): Scenario {
  const read = readScenario(document, { file: () => undefined });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('; '));
  return read.value;
}

function limits(order: Extract<StudyOrder, { kind: 'limits' }>): ToldLimits {
  const scenario = scenarioOf(order.document);
  const mechanism = compile(scenario);
  const { sense, level, found } = limitsOf(scenario, mechanism, {
    curves: order.curves,
    progress: (done) => say({ kind: 'progress', ...done }),
  });
  return {
    sense,
    level,
    found: found.map(({ obstacle, ...limit }) => {
      const { kind, title, measures, unit } = obstacle;
      return { ...limit, kind, title, measures, unit };
    }),
    grip: Math.min(...mechanism.wheels.map(({ tyre }) => tyre.grip)),
    mass: mechanism.mass,
  };
}

/** @throws Error with all problems of a ground that cannot be laid */
function groundOf({ ground }: Scenario) {
  const laid = layGround(ground, { file: () => undefined });
  if (!laid.ok) throw new Error(laid.problems.map(problemLine).join('; '));
  return laid.value;
}

function mass({ document, at }: Extract<StudyOrder, { kind: 'mass' }>): ToldMass {
  const scenario = scenarioOf(document);
  const greatest = greatestMass(scenario, groundOf(scenario), at === undefined ? {} : { spread: { at } });
  say({ kind: 'progress', share: 0.4, next: 'curve over mass' });
  const { obstacle, there, points } = massCurve(scenario);
  const { title, unit } = obstacle;
  return { greatest, curve: { title, unit, there, points } };
}

function helping(document: unknown): ToldRemedies {
  const scenario = scenarioOf(document);
  const ground = groundOf(scenario);
  const today = crossRegardless(scenario, ground);
  const { mechanism, ledger } = today;
  const progress = (share: number, next: string) => say({ kind: 'progress', share, next });
  return {
    first: firstToGive(ledger.lines),
    mass: mechanism.mass,
    topSpeed: topSpeedOf(mechanism),
    found: alternativesOf(scenario, ground, { today, progress }),
  };
}

function map({
  document,
  measure,
  plane,
  columns,
  rows,
  stations,
  part,
}: Extract<StudyOrder, { kind: 'map' }>) {
  const scenario = scenarioOf(document);
  const found = planesOf(scenario).find(({ name, kind }) => name === plane.name && kind === plane.kind);
  if (found === undefined) throw new Error(`there is no ${plane.kind} '${plane.name}' any more`);
  const sides = { x: { ...found.x, steps: columns }, z: { ...found.z, steps: rows } };
  for (const tile of mapOver({ scenario, measure, stations, ...sides }, part)) say({ kind: 'tile', tile });
  say({ kind: 'mapped' });
}

function work(order: StudyOrder): void {
  if (order.kind === 'limits') say({ kind: 'limits', result: limits(order) });
  else if (order.kind === 'map') map(order);
  else if (order.kind === 'mass') say({ kind: 'mass', result: mass(order) });
  else if (order.kind === 'remedies') say({ kind: 'remedies', result: helping(order.document) });
  else {
    const { measure } = order;
    const progress = (share: number) => say({ kind: 'progress', share });
    say({
      kind: 'matters',
      result: influencesOf({ scenario: scenarioOf(order.document), measure, progress }),
    });
  }
}

self.addEventListener('message', ({ data }: MessageEvent<StudyOrder>) => {
  try {
    work(data);
  } catch (error) {
    say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
