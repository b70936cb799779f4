import { evenSlope } from '../ground/even.ts';
import { type Kinematics, makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { standAt } from '../statics/stand.ts';
import { type Bend, bendsIn } from './bends.ts';
import { chainOf, type DriveChain } from './chain.ts';
import type { DrivePart } from './driveline.ts';
import { type Duty, lasting, orNull } from './duty.ts';
import { type EfficiencyMap, efficiencyMap } from './efficiency.ts';
import { groupsOf, patternOf } from './pattern.ts';
import { type StallHeat, stallHeat } from './stall-heat.ts';
import { type Pulling, Throttle } from './throttle.ts';

/** What a drive line makes of its vehicle, SI. Figures that cannot be known from the document are null. */
export interface Performance {
  /** kg, and the force of rolling resistance on the level, N. */
  readonly mass: number;
  readonly drag: number;
  /** Full throttle over speed, from standstill to where nothing is left. */
  readonly line: readonly PerformancePoint[];
  /** Highest speed on the level, m/s; null when it does not even move. */
  readonly topSpeed: number | null;
  /** Steepest even grade that the drive has the torque for (rad), and the speed there, m/s: grip may end before it. */
  readonly steepest: { readonly angle: number; readonly speed: number } | null;
  /** Steepest grade at which the target speed is held, rad; null when not even the level. */
  readonly atTarget: { readonly speed: number; readonly angle: number } | null;
  /** Speeds on some grades: angle (rad), speed (m/s, null where it does not climb). */
  readonly grades: readonly { readonly angle: number; readonly speed: number | null }[];
  /** Driving on the level at the target speed. */
  readonly level: Duty | null;
  readonly sources: readonly SourceFigures[];
  /** Joints as the vehicle stands on the level. */
  readonly joints: readonly Bend[];
  /** Figures taken as typical, since the document does not give them: part and what. */
  readonly assumed: readonly { readonly of: string; readonly says: string }[];
}

/** One point of full throttle. */
export interface PerformancePoint {
  /** m/s, N at the wheels and W at the wheels. */
  readonly speed: number;
  readonly thrust: number;
  readonly power: number;
  /** Battery: V, A; wheel power over battery power. */
  readonly voltage: number | null;
  readonly current: number | null;
  readonly efficiency: number | null;
}

/** A motor or engine: what it does when it stands still, and how well it works where. */
export interface SourceFigures {
  readonly of: string;
  /** Its place in the document. */
  readonly path: string;
  readonly stall: StallHeat | null;
  readonly map: EfficiencyMap | null;
}

const points = 60;
/** Grades that are always shown: 0, 10, 20, 30, 40, 60 and 100 %. */
const shownGrades = [0, 0.1, 0.2, 0.3, 0.4, 0.6, 1].map(Math.atan);

/** What the drive line of a vehicle makes of it; undefined when it has none. */
export function performanceOf(mechanism: Mechanism): Performance | undefined {
  const chain = chainOf(mechanism);
  if (chain === undefined) return undefined;
  const pull = new FullPull(mechanism, chain);
  const { driveline } = chain;
  const weight = mechanism.mass * mechanism.gravity;
  const speed = Math.abs(mechanism.drive.speed);
  const slope = (angle: number) => weight * Math.sin(angle) + pull.drag * Math.cos(angle);
  const line = Array.from({ length: points + 1 }, (_, i) => pull.point((i / points) * pull.most));
  const best = line.reduce((a, b) => (b.thrust > a.thrust ? b : a));
  const angleAt = (thrust: number) => angleFor(thrust, weight, pull.drag);
  return {
    mass: mechanism.mass,
    drag: pull.drag,
    line,
    topSpeed: pull.speedUnder(slope(0)),
    steepest: best.thrust < pull.drag ? null : { angle: angleAt(best.thrust), speed: best.speed },
    atTarget: pull.thrust(speed) < pull.drag ? null : { speed, angle: angleAt(pull.thrust(speed)) },
    grades: shownGrades.map((angle) => ({ angle, speed: pull.speedUnder(slope(angle)) })),
    level: speed > 0 ? pull.steady(speed) : null,
    sources: driveline.parts.flatMap((part) => sourceFigures(part, driveline)),
    joints: bendsIn(mechanism, pull.standing),
    assumed: driveline.parts.flatMap((part) => part.law.assumed.map((says) => ({ of: part.name, says }))),
  };
}

/**
 * Top speed on the level if it lies below a speed (m/s): null when it does not move at all, undefined when that speed is
 * reached, or where there is no drive line. Takes equal loads on all axle lines: quick enough for every reading.
 */
export function topSpeedBelow(mechanism: Mechanism, speed: number): number | null | undefined {
  const chain = chainOf(mechanism);
  if (chain === undefined || shareless(mechanism)) return undefined;
  const pull = new FullPull(mechanism, chain, false);
  return pull.thrust(speed) >= pull.drag * (1 - 1e-9) ? undefined : pull.speedUnder(pull.drag);
}

/** Whether nothing is driven, which is told in another place. */
const shareless = ({ wheels }: Mechanism): boolean => wheels.every(({ driven }) => !driven);

function sourceFigures(part: DrivePart, { supply }: DriveChain['driveline']): SourceFigures[] {
  if (part.law.motor === undefined) return [];
  return [
    {
      of: part.name,
      path: `vehicle.driveline.parts[${part.index}]`,
      stall: stallHeat(part, supply),
      map: efficiencyMap(part, supply),
    },
  ];
}

/**
 * Angle of the grade that a thrust (N) carries: F = W·sin α + R·cos α, α = asin(F/√(W² + R²)) − atan(R/W); π/2 when it
 * lifts the vehicle. Source: forces along an even slope.
 */
function angleFor(thrust: number, weight: number, drag: number): number {
  const size = Math.hypot(weight, drag);
  return thrust >= size ? Math.PI / 2 : Math.asin(thrust / size) - Math.atan2(drag, weight);
}

/** Full throttle of a vehicle that stands on the level: thrust over speed. */
class FullPull {
  /** Rolling resistance on the level, N. */
  readonly drag: number;
  /** Speed beyond which nothing is left, m/s. */
  readonly most: number;
  /** Where all bodies are as it stands. */
  readonly standing: Kinematics;
  readonly #mechanism: Mechanism;
  readonly #chain: DriveChain;
  readonly #throttle: Throttle;
  readonly #pattern: Float64Array;
  readonly #groups: readonly Group[];
  readonly #speeds: Float64Array;

  /** `stands`: whether its true standing loads are found; equal ones otherwise, and bodies as drawn. */
  constructor(mechanism: Mechanism, chain: DriveChain, stands = true) {
    const stand = stands ? standAt(mechanism, evenSlope(0), 0) : { kind: 'none' as const };
    const even = mechanism.wheels.map(() => (mechanism.mass * mechanism.gravity) / mechanism.wheels.length);
    const loads = stand.kind === 'stands' ? stand.standing.loads : even;
    this.#mechanism = mechanism;
    this.#chain = chain;
    this.#throttle = new Throttle(chain.driveline);
    this.#speeds = new Float64Array(this.#throttle.sources.length);
    this.#pattern = patternOf(mechanism, loads);
    this.drag = mechanism.wheels.reduce((sum, { tyre }, w) => sum + tyre.rolling * (loads[w] as number), 0);
    const k = makeKinematics(mechanism.bodies.length);
    if (stand.kind === 'stands')
      stand.standing.poses.forEach((pose, b) => {
        setPose(k, mechanism, b, pose);
      });
    this.standing = k;
    chain.solve(this.#pattern, 1, stand.kind === 'stands' ? k : undefined);
    this.#groups = groupsWith(mechanism, chain, this.#throttle.sources, this.#pattern);
    this.most = this.#end();
  }

  /** Thrust of all wheels at full throttle, N. */
  thrust(speed: number): number {
    return this.#thrust(this.#pull(speed));
  }

  point(speed: number): PerformancePoint {
    const pulling = this.#pull(speed);
    const thrust = this.#thrust(pulling);
    const drawn = pulling.voltage * pulling.supplyCurrent;
    return {
      speed,
      thrust,
      power: thrust * speed,
      voltage: orNull(pulling.voltage),
      current: orNull(pulling.supplyCurrent),
      efficiency: drawn > 0 ? (thrust * speed) / drawn : null,
    };
  }

  /** Highest speed at which this force (N) is held; null when it is not held at any. */
  speedUnder(force: number): number | null {
    let high = this.most;
    const step = this.most / 512;
    while (high >= 0 && this.thrust(high) < force) high -= step;
    if (high < 0) return this.thrust(0) >= force ? 0 : null;
    let [low, top] = [high, Math.min(this.most, high + step)];
    for (let n = 0; n < 50; n++) {
      const middle = (low + top) / 2;
      if (this.thrust(middle) >= force) low = middle;
      else top = middle;
    }
    return low;
  }

  /** Driving on the level at a steady speed; null when it can't. */
  steady(speed: number): Duty | null {
    if (this.thrust(speed) < this.drag) return null;
    const chain = this.#chain;
    chain.solve(
      this.#pattern.map((torque) => torque * this.drag),
      1,
    );
    return lasting(chain, speed, chain.wheelPower, chain.supplyPower);
  }

  #pull(speed: number): Pulling {
    const { sources } = this.#throttle;
    const turns = this.#chain.turns.out;
    for (let i = 0; i < sources.length; i++)
      this.#speeds[i] = speed * (turns[sources[i] as number] as number);
    return this.#throttle.full(this.#speeds);
  }

  #thrust({ torque }: Pulling): number {
    const { parts } = this.#chain.driveline;
    const { sources } = this.#throttle;
    return this.#groups.reduce((sum, group) => {
      const all = group.sources.reduce(
        (total, i) => total + (torque[i] as number) * (parts[sources[i] as number] as DrivePart).count,
        0,
      );
      return sum + Math.min(all / group.need, group.slip);
    }, 0);
  }

  /** Speed at which the fastest source has nothing left. */
  #end(): number {
    const { parts, supply } = this.#chain.driveline;
    const ends = this.#throttle.sources.map((p) => {
      const motor = (parts[p] as DrivePart).law.motor;
      const share = motor?.voltage === undefined || supply === undefined ? 1 : supply.voltage / motor.voltage;
      const turns = this.#chain.turns.out[p] as number;
      const stretch = motor?.curve === undefined ? share : 1;
      return turns > 0 ? ((motor?.noLoadSpeed ?? 0) * stretch) / turns : 0;
    });
    return Math.max(...ends, Math.abs(this.#mechanism.drive.speed));
  }
}

/** Sources that turn the same axle lines. */
interface Group {
  /** Places in the throttle's list of sources. */
  readonly sources: readonly number[];
  /** Torque of all of them together for 1 N of thrust, m. */
  readonly need: number;
  /** Thrust at which its first clutch slips, N. */
  readonly slip: number;
}

function groupsWith(
  { wheels }: Mechanism,
  chain: DriveChain,
  sources: readonly number[],
  pattern: Float64Array,
): Group[] {
  const groups = groupsOf(chain.driveline);
  return [...new Set(groups.lines)].flatMap((g): Group[] => {
    if (g < 0) return [];
    const thrust = wheels.reduce(
      (sum, { radius }, w) => sum + (groups.lines[w] === g ? (pattern[w] as number) / radius : 0),
      0,
    );
    const own = sources.flatMap((p, i) => (groups.parts[p] === g ? [i] : []));
    const torque = own.reduce((sum, i) => sum + (chain.out[sources[i] as number] as number), 0);
    const slips = chain.driveline.parts.flatMap(({ law, count }, p) =>
      law.slipTorque === undefined || groups.parts[p] !== g || !((chain.out[p] as number) > 0)
        ? []
        : [(law.slipTorque * count * thrust) / (chain.out[p] as number)],
    );
    return thrust > 0 && torque > 0
      ? [{ sources: own, need: torque / thrust, slip: Math.min(Number.POSITIVE_INFINITY, ...slips) }]
      : [];
  });
}
