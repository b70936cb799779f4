import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Scenario } from '../scenario/schema.ts';
import { crossLevel, type Halt, type Rules } from './cross.ts';
import { type CurvePoint, gripCurve, massCurve } from './curves.ts';
import { closely, type Limit, limitOf } from './limit.ts';
import type { ObstacleKind } from './obstacle.ts';
import { obstacleKinds } from './registry.ts';
import { withGrip } from './vary.ts';

/** The limit of one kind of obstacle, beside what the scenario's own ground has of it. */
export interface FoundLimit extends Limit {
  readonly obstacle: ObstacleKind;
  /** Largest such obstacle of the scenario's ground, m or rad; undefined when it has none. */
  readonly today: number | undefined;
  /** Limit over grip and over mass, when they were asked for. */
  readonly overGrip?: readonly CurvePoint[];
  readonly overMass?: readonly CurvePoint[];
}

/** All limits of a vehicle. */
export interface Limits {
  /** +1 forward, −1 in reverse, as the scenario drives. */
  readonly sense: 1 | -1;
  /** Grip that was asked for; undefined where each tyre has its own. */
  readonly grip: number | undefined;
  /** Why it does not even cross level ground; undefined when it does. Then all limits are 0. */
  readonly level: Halt | undefined;
  readonly found: readonly FoundLimit[];
}

/** What may be asked besides the scenario. */
export interface LimitOptions {
  /** Coefficient of friction of every tyre, instead of each one's own. */
  readonly grip?: number;
  /** Kinds of obstacles that are looked for; all when left out. */
  readonly obstacles?: readonly ObstacleKind[];
  /** Whether the curves over grip and mass are wanted too. */
  readonly curves?: boolean;
  /** Called before each part of the work: what comes next, and the share that is done, 0 to 1. */
  readonly progress?: (done: { readonly share: number; readonly next: string }) => void;
}

/**
 * Finds the largest obstacle of every kind that the vehicle of a scenario crosses in a crawl: without inertia, in balance
 * all the way, with its own drive and torque. `mechanism`: the scenario's vehicle compiled. A stop that a member meets is
 * a remark, unless the scenario's criteria ask that it meets none.
 */
export function limitsOf(scenario: Scenario, mechanism: Mechanism, options: LimitOptions = {}): Limits {
  const { grip, obstacles = obstacleKinds, curves = false, progress } = options;
  const sense = scenario.vehicle.drive.speed < 0 ? -1 : 1;
  const rules = { sense, noStops: noStopsOf(scenario, mechanism) } as const;
  const vehicle = grip === undefined ? mechanism : withGrip(mechanism, grip);
  const level = crossLevel(vehicle, { ...rules, perRadius: closely.scan }).halt;
  const found = obstacles.map((obstacle, i): FoundLimit => {
    progress?.({ share: i / obstacles.length, next: obstacle.title });
    const today = todayOf(scenario, obstacle, sense);
    const limit = level ? nothing(level) : limitOf(vehicle, obstacle, rules);
    if (!curves) return { obstacle, today, ...limit };
    return {
      obstacle,
      today,
      ...limit,
      overGrip: gripCurve(mechanism, obstacle, rules),
      overMass: massCurve(vehicle, obstacle, rules),
    };
  });
  return { sense, grip, level, found };
}

const nothing = (level: Halt): Limit => ({ size: 0, halt: level, most: 0, remarks: [] });

/** Members that the scenario's criteria want off their stops. */
function noStopsOf({ criteria }: Scenario, { members }: Mechanism): string[] {
  return criteria.flatMap((criterion) =>
    criterion.kind === 'no-stop-hit' ? (criterion.members ?? members.map((m) => m.name)) : [],
  );
}

/** Largest obstacle of this kind on the scenario's own ground. */
function todayOf({ ground }: Scenario, obstacle: ObstacleKind, sense: Rules['sense']): number | undefined {
  const sizes = ground.flatMap((piece) => obstacle.sizeIn(piece, sense) ?? []);
  return sizes.length === 0 ? undefined : Math.max(...sizes);
}
