import type { Recording, RunEvent } from '../../shared/recording.ts';
import type { Ground } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Crossing, crawlOver } from '../statics/crawl.ts';
import { type Extent, extentOf } from './extent.ts';
import type { ObstacleKind } from './obstacle.ts';

/** What a crossing is held to, and how finely it is looked at. */
export interface Rules {
  /** +1 drives forward, −1 in reverse. */
  readonly sense: 1 | -1;
  /** Members that may not meet a stop; elsewhere a stop met is a remark. */
  readonly noStops: readonly string[];
  /** Stations per radius of the smallest wheel, before those added near contact changes. */
  readonly perRadius: number;
}

/**
 * What ends a crossing. `grip`: wheels need more friction than there is. `torque`: a wheel needs more torque than its
 * drive gives. `balance`: no thrust of the driven wheels would do, whatever their grip. `tipping`: it falls over, or by
 * more than 30 degrees. `belly`: the underside meets the ground. `stop`: a member meets one and must not. `stand`: it does
 * not even stand before the obstacle.
 */
export type HaltKind = 'grip' | 'torque' | 'balance' | 'tipping' | 'belly' | 'stop' | 'stand';

/** Where and why a crossing ended. */
export interface Halt {
  readonly by: HaltKind;
  /** As a sentence without its stop: 'front needs a grip of 0.85 and has 0.8'. */
  readonly says: string;
  /** Station of the vehicle's reference point, m, the obstacle beginning at 0. */
  readonly station: number;
}

/** What came of one crossing. */
export interface Crossed {
  readonly crosses: boolean;
  /** Absent when it crosses. */
  readonly halt?: Halt;
  /** Things on the way that did not end it, as sentences. */
  readonly remarks: readonly string[];
}

/** Most stations of one crossing, for vehicles with small wheels for their length. */
const mostStations = 20_000;

/** Crosses one obstacle of this size (m or rad), from well before it to well behind it (or on to it). */
export function cross(mechanism: Mechanism, obstacle: ObstacleKind, size: number, rules: Rules): Crossed {
  return judge(recordCrossing(mechanism, obstacle, size, rules, { closely: true, forces: false }), rules);
}

/**
 * The same crossing as a recording whose stations begin at the obstacle. A vehicle in reverse crosses the mirrored ground,
 * its stations fall.
 */
export function recordCrossing(
  mechanism: Mechanism,
  obstacle: ObstacleKind,
  size: number,
  rules: Rules,
  how: Pick<Crossing, 'closely' | 'forces' | 'regardless' | 'plain'>,
): Recording {
  const extent = extentOf(mechanism, rules.sense);
  const laid = layGround(obstacle.pieces(size, extent), { file: () => undefined });
  if (!laid.ok) throw new RangeError(laid.problems.map((p) => p.message).join('; '));
  return crossGround(mechanism, laid.value, obstacle.ends(size), extent, rules, how);
}

/** Crosses level ground: what a vehicle that cannot even do that is told. */
export function crossLevel(mechanism: Mechanism, rules: Rules): Crossed {
  const extent = extentOf(mechanism, rules.sense);
  const laid = layGround([], { file: () => undefined });
  if (!laid.ok) throw new RangeError('level ground cannot be laid');
  return judge(crossGround(mechanism, laid.value, 0, extent, rules, { closely: true, forces: false }), rules);
}

function crossGround(
  mechanism: Mechanism,
  ahead: Ground,
  end: number,
  extent: Extent,
  rules: Rules,
  how: Pick<Crossing, 'closely' | 'forces' | 'regardless' | 'plain'>,
): Recording {
  const { sense, perRadius } = rules;
  const room = 0.25 * extent.radius;
  const start = -(extent.ahead + room);
  const until = end + extent.behind + extent.radius + room;
  return crawlOver(mechanism, sense > 0 ? ahead : mirrored(ahead), {
    start: sense * start,
    until: sense * until,
    stations: Math.min(mostStations, Math.ceil(((until - start) / extent.least) * perRadius)),
    ...how,
  });
}

/** The ground seen from the other side: x turns round, so that a vehicle in reverse meets what one ahead would. */
function mirrored(ground: Ground): Ground {
  const turned = (values: Float64Array, sign: 1 | -1) => values.map((v) => sign * v).reverse();
  return {
    x: turned(ground.x, -1),
    z: turned(ground.z, 1),
    count: ground.count,
    from: -ground.to,
    to: -ground.from,
    pieces: ground.pieces.map((p) => ({ ...p, from: -p.to, to: -p.from })).reverse(),
  };
}

/** The first thing on the way that ends the crossing, and what else is worth a word. */
function judge(recording: Recording, rules: Rules): Crossed {
  const { sense } = rules;
  const halts = [...recording.events.flatMap((event) => haltOfEvent(event, rules)), ...haltOfEnd(recording)];
  const way = (halt: Halt): number => sense * halt.station;
  const first = halts.reduce<Halt | undefined>(
    (best, halt) => (best === undefined || way(halt) < way(best) ? halt : best),
    undefined,
  );
  const reached = first === undefined ? Number.POSITIVE_INFINITY : way(first);
  const remarks = remarksOf(recording.events.filter((e) => sense * e.station <= reached));
  return first === undefined
    ? { crosses: true, remarks }
    : { crosses: false, halt: { ...first, station: way(first) }, remarks };
}

function haltOfEvent(event: RunEvent, { noStops }: Rules): Halt[] {
  const { station } = event;
  if (event.kind === 'body-touch') return [{ by: 'belly', says: 'the underside meets the ground', station }];
  if (event.kind === 'stop-hit' && noStops.includes(event.member))
    return [{ by: 'stop', says: `${event.member} meets its ${event.side} stop`, station }];
  return [];
}

function haltOfEnd({ end, frames }: Recording): Halt[] {
  const { station } = end;
  if (end.kind === 'arrived') return [];
  const said = end.kind === 'stuck' || end.kind === 'diverged' ? end.cause : 'it tips over';
  if (frames === 0) return [{ by: 'stand', says: said, station }];
  if (end.kind === 'tipped') return [{ by: 'tipping', says: said, station }];
  return [{ by: (end.kind === 'stuck' && end.by) || 'balance', says: said, station }];
}

/** What happened on the way, said once each. */
function remarksOf(events: readonly RunEvent[]): string[] {
  const said = events.flatMap((event) => {
    if (event.kind === 'stop-hit') return [`${event.member} meets its ${event.side} stop`];
    if (event.kind === 'lift-off') return [`${event.wheel} leaves the ground`];
    if (event.kind === 'snap') return [`${event.of} drops to another balance`];
    return [];
  });
  return [...new Set(said)];
}
