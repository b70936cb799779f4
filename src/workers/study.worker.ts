import { problemLine } from '../../shared/problem.ts';
import { limitsOf } from '../../sim/limits/limits.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { mapOver } from '../../sim/studies/map.ts';
import { influencesOf } from '../../sim/studies/matters.ts';
import { planesOf } from '../../sim/studies/planes.ts';
import type { StudyNews, StudyOrder, ToldLimits } from './study-protocol.ts';

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
