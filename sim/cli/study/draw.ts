import { drawsPerRow, indexDraws, indicesOf } from '../../chance/indices.ts';
import { type DrawOutcome, MonteCarlo } from '../../chance/monte-carlo.ts';
import type { BoundStudy } from '../../tuning/bound.ts';
import type { Outcome, Sample } from '../../tuning/sample.ts';
import { type Drawn, uncertainOf } from '../../tuning/sure.ts';
import { type Means, outcomesOf, type Piece } from './try-all.ts';

/** Draws that are asked for at a time. */
const batch = 256;

/** A draw as chance sees it: criteria with getting across as the last one. */
function drawOutcome({ short, goals, failed, rows }: Outcome): DrawOutcome {
  return {
    holds: failed === true ? null : short.map((s) => s === 0),
    measures: goals,
    ...(rows === undefined
      ? {}
      : { rows: rows.map((row) => Float32Array.from(row, (value) => value ?? Number.NaN)) }),
  };
}

/**
 * Draws vehicles of the best designs, one design after another until one is sure enough; then finds which spread
 * matters most to that one, or to the surest.
 */
export async function drawBest(
  study: BoundStudy,
  designs: readonly Sample[],
  means: Means,
): Promise<readonly Drawn[]> {
  const { sure } = study.document;
  if (sure === undefined) return [];
  const drawn: Drawn[] = [];
  for (const design of designs.slice(0, sure.designs)) {
    drawn.push(await drawnOf(study, design, means));
    if ((drawn.at(-1)?.sureness.all.value ?? 0) >= sure.wanted) break;
  }
  const surest = drawn.reduce<Drawn | undefined>(
    (best, each) => (best === undefined || each.sureness.all.value > best.sureness.all.value ? each : best),
    undefined,
  );
  const sample = designs.find(({ n }) => n === surest?.n);
  if (surest === undefined || sample === undefined || sure.rows === 0) return drawn;
  const indices = await indicesFor(study, sample, sure.rows, means);
  return drawn.map((each) => (each === surest && indices !== undefined ? { ...each, indices } : each));
}

async function drawnOf(study: BoundStudy, { n, design }: Sample, means: Means): Promise<Drawn> {
  const { document, scenario, by, grounds } = study;
  const { width = 1, most = 1 } = document.sure ?? {};
  const uncertain = uncertainOf(study, design);
  const criteria = scenario.criteria.length + 1;
  const draws = new MonteCarlo({ uncertain, seed: document.seed, criteria, width, most });
  for (let done = 0; ; ) {
    const batchOf = draws.ask(batch);
    if (batchOf.length === 0) break;
    const pieces = batchOf.map(
      ({ number, settings }): Piece => ({
        of: `drawn:${n}`,
        n: number,
        design,
        trial: { by, draw: settings, rows: true },
      }),
    );
    const outcomes = await outcomesOf(study, means, 'drawing vehicles', most, pieces, done);
    for (const [i, { number }] of batchOf.entries()) draws.tell(number, drawOutcome(outcomes[i] as Outcome));
    done += batchOf.length;
  }
  const wheels = grounds[0]?.scenario.vehicle.wheels.map(({ name }) => name) ?? [];
  return { n, sureness: draws.sureness(), bands: draws.bands(wheels) };
}

async function indicesFor(
  study: BoundStudy,
  { n, design }: Sample,
  rows: number,
  means: Means,
): Promise<Drawn['indices']> {
  const { document, by } = study;
  const uncertain = uncertainOf(study, design);
  if (uncertain.length === 0) return undefined;
  const draws = indexDraws(uncertain, { rows, seed: document.seed });
  const values: (number | null)[] = [];
  const all = rows * drawsPerRow(uncertain.length);
  for (let from = 0; from < draws.length; from += batch) {
    const pieces = draws.slice(from, from + batch).map(
      ({ number, settings }): Piece => ({
        of: `spread:${n}`,
        n: number,
        design,
        trial: { by, draw: settings },
      }),
    );
    const outcomes = await outcomesOf(study, means, 'weighing spreads', all, pieces, from);
    values.push(...outcomes.map(({ goals }) => goals[0] ?? null));
  }
  const found = indicesOf(values, uncertain.length, document.seed);
  return found && { names: uncertain.map(({ name }) => name), of: found };
}
