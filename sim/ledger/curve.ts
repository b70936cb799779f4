import type { LedgerLine } from '../../shared/report.ts';
import { recordCrossing } from '../limits/cross.ts';
import { extentOf } from '../limits/extent.ts';
import type { ObstacleKind } from '../limits/obstacle.ts';
import { obstacleKinds } from '../limits/registry.ts';
import { stepUp } from '../limits/step-up.ts';
import { compile } from '../mechanism/compile.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Scenario } from '../scenario/schema.ts';
import { counts, isBeside, ledgerOf } from './ledger.ts';
import { withMore } from './load.ts';
import { narrow, type Tried } from './root.ts';
import { keptOffStops } from './stops-kept.ts';
import { rounding } from './track.ts';

/** Largest obstacle at one mass. */
export interface MassPoint {
  /** Mass of the whole vehicle, kg. */
  readonly mass: number;
  /** Largest size at which everything with a known limit holds, m or rad; 0 when nothing does. */
  readonly size: number;
  /** What sets it; undefined when nothing does up to the largest size that is tried. */
  readonly setBy: LedgerLine | undefined;
}

/** Largest obstacle against mass. */
export interface MassCurve {
  readonly obstacle: ObstacleKind;
  /** Mass today, kg, and the largest such obstacle of the scenario's ground; undefined when it has none. */
  readonly today: number;
  readonly there: number | undefined;
  readonly points: readonly MassPoint[];
}

/** Masses of the curve over today's whole mass. */
const factors = [0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.35, 1.5, 1.65, 1.8, 2];
/** Stations per wheel radius; factor between sizes of a scan; how near to its limit a part is brought; where jumps are accepted. */
const perRadius = 12;
const growth = 1.15;
const near = 2e-3;
const width = 2e-3;

/** The kind of obstacle of which the scenario's ground has the largest, for its own scale; a step up when it has none. */
export function obstacleOf({ ground, vehicle }: Scenario): ObstacleKind {
  const sense = vehicle.drive.speed < 0 ? -1 : 1;
  return (
    obstacleKinds.find((kind) => ground.some((piece) => kind.sizeIn(piece, sense) !== undefined)) ?? stepUp
  );
}

/**
 * The largest obstacle of a kind over the mass of the whole vehicle, all mass items growing alike: everything on the ledger
 * with a known limit holds up to it. Each search begins at its neighbour's size, so that a smaller size that fails while
 * larger ones pass is not seen; sizes to 0.2 %.
 */
export function massCurve(scenario: Scenario, obstacle = obstacleOf(scenario)): MassCurve {
  const sense = scenario.vehicle.drive.speed < 0 ? -1 : 1;
  const today = compile(scenario).mass;
  const sizes = scenario.ground.flatMap((piece) => obstacle.sizeIn(piece, sense) ?? []);
  const there = sizes.length === 0 ? undefined : Math.max(...sizes);
  let from = there ?? 0;
  const points = factors.flatMap((factor): MassPoint[] => {
    const loaded = withMore(scenario, 'items', (factor - 1) * today);
    if (loaded.vehicle.masses.some((item) => !(item.mass > 0))) return [];
    const point = largest(new Obstacles(compile(loaded), obstacle, scenario), from);
    from = point.size > 0 ? point.size : from;
    return [point];
  });
  return { obstacle, today, there, points };
}

/** Lines that count, the worst first. */
type Found = readonly LedgerLine[];

/** One vehicle before obstacles of one kind. */
class Obstacles {
  readonly mechanism: Mechanism;
  readonly least: number;
  readonly most: number;
  readonly #obstacle: ObstacleKind;
  readonly #noStops: readonly string[];
  readonly #sense: 1 | -1;

  constructor(mechanism: Mechanism, obstacle: ObstacleKind, { vehicle, criteria }: Scenario) {
    this.mechanism = mechanism;
    this.#obstacle = obstacle;
    this.#sense = vehicle.drive.speed < 0 ? -1 : 1;
    this.#noStops = keptOffStops(criteria, mechanism.members);
    const extent = extentOf(mechanism, this.#sense);
    this.most = obstacle.most(extent);
    this.least = Math.min(this.most, obstacle.least(extent));
  }

  at(size: number): Tried<Found> {
    const { mechanism } = this;
    const rules = { sense: this.#sense, noStops: this.#noStops, perRadius };
    const recording = recordCrossing(mechanism, this.#obstacle, size, rules, {
      regardless: true,
      forces: mechanism.strength !== undefined,
    });
    const { lines } = ledgerOf(mechanism, recording, { noStops: this.#noStops });
    const found = lines.filter((line) => counts(line) && !isBeside(line));
    const ends = found.some((line) => line.gives !== undefined && (line.use ?? 0) <= 1 + rounding);
    return { at: size, over: ends ? Number.POSITIVE_INFINITY : (found[0]?.use ?? 0) - 1, found };
  }
}

/** The size at which the first thing is at its limit, looked for from a size that is likely to be near. */
function largest(place: Obstacles, from: number): MassPoint {
  const { mass } = place.mechanism;
  const attempt = (size: number) => place.at(size);
  const told = ({ found }: Tried<Found>) =>
    found.find((line) => line.gives !== undefined && (line.use ?? 0) <= 1 + rounding) ?? found[0];
  let tried = attempt(Math.min(place.most, Math.max(place.least, from)));
  let [holds, fails] = tried.over <= 0 ? [tried, undefined] : [undefined, tried];
  while (holds === undefined && tried.at > place.least * 1e-2) {
    tried = attempt(tried.at / growth);
    if (tried.over <= 0) holds = tried;
    else fails = tried;
  }
  while (fails === undefined && tried.at < place.most) {
    tried = attempt(Math.min(place.most, tried.at * growth));
    if (tried.over <= 0) holds = tried;
    else fails = tried;
  }
  if (holds === undefined) return { mass, size: 0, setBy: fails && told(fails) };
  if (fails === undefined) return { mass, size: holds.at, setBy: undefined };
  const ends = narrow(attempt, holds, fails, { near, width: width * holds.at });
  return { mass, size: ends.holds.at, setBy: told(ends.holds.over > -10 * near ? ends.holds : ends.fails) };
}
