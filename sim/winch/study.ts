import type { LedgerLine } from '../../shared/report.ts';
import { evenSlope } from '../ground/even.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { standAt } from '../statics/stand.ts';
import { winchCautions } from './cautions.ts';
import { type Layer, layersOf } from './drum.ts';
import { plainTask, type WinchTask } from './fields.ts';
import { type Haul, Hauling } from './haul.ts';
import { haulageOf } from './haulage.ts';
import { gainOf, storedIn, typicalStretch } from './line.ts';
import { motorAt, type WinchPower } from './power.ts';
import { remarksOf } from './remarks.ts';
import { usesOf } from './uses.ts';
import type { Winch } from './winch.ts';

/** What one axle line carries while the rope pulls. */
export interface HauledWheel {
  readonly name: string;
  readonly axle: number;
  /** Parked on the same slope with grip enough, and while the rope pulls; N across the ground; null where it does not stand. */
  readonly parked: number | null;
  readonly load: number;
  /** No load is left on it. */
  readonly off: boolean;
}

/** A layer with what the winch does from it. */
export interface WorkingLayer extends Layer {
  /** Greatest pull of one line, at standstill of the motor, N; null without a motor. */
  readonly pull: number | null;
  /** Speed of the rope under the pull that is needed, m/s; null without a motor, 0 where it stalls. */
  readonly speed: number | null;
}

/** A pull straight up at the winch. */
export interface Lift {
  /** Force of all lines, and tension of the line on the drum, N. */
  readonly force: number;
  readonly tension: number;
  /** Whether motor, rope, reduction and brake bear it; null where one of them is not known and none refuses. */
  readonly can: boolean | null;
}

/** What a winch has to do for a task, and how near everything is to its limit. */
export interface WinchStudy {
  readonly name: string;
  readonly task: WinchTask;
  /** How the haul goes: the figures below belong to it; `tips` or `none`: no balance, and they are 0. */
  readonly kind: Haul['kind'];
  /** Pull of all lines on the vehicle, N, and its direction against the ground, rad. */
  readonly force: number;
  readonly rise: number;
  /** Axle line in the hole that needs most, with the pull when all lines stand in such holes, N (null: no balance). */
  readonly hole: { readonly line: string; readonly all: number | null } | null;
  /** Pull of the vehicle over that of the drum; tension of the line on the drum, N. */
  readonly gain: number;
  readonly tension: number;
  readonly layers: readonly WorkingLayer[];
  /** Layer that it pulls from when the haul begins, and whether that is known (else the outermost). */
  readonly layer: number;
  readonly layerKnown: boolean;
  /** Rope that is out when the haul begins, m; null where the anchor's distance is not known. */
  readonly out: number | null;
  readonly short: boolean;
  readonly drumTorque: number;
  /** A of all motors; null where not known. */
  readonly current: number | null;
  /** Speed of the vehicle, m/s; null without a motor. */
  readonly speed: number | null;
  readonly anchor: number;
  readonly wheels: readonly HauledWheel[];
  /** Pull that is enough while its own wheels drive as hard as grip and torque allow, N; null where they cannot help. */
  readonly withDrive: number | null;
  /** On the level: lifting its own end by a rope straight up, and hanging from its own rope. */
  readonly ownEnd: (Lift & { readonly line: string }) | null;
  readonly hung: Lift;
  /** Energy in the stretched rope, J; null where not known. */
  readonly energy: number | null;
  readonly uses: readonly LedgerLine[];
  readonly remarks: readonly string[];
  readonly cautions: readonly string[];
  /** Nothing that is known is past its limit, the rope is long enough, and the vehicle comes. */
  readonly pass: boolean;
}

/** Load over the weight under which an axle line is off the ground. */
const nothing = 1e-6;

/** Works out what a winch has to do. `task`: instead of the document's own, SI. */
export function studyWinch(
  mechanism: Mechanism,
  given: Winch,
  task: WinchTask = given.task ?? plainTask,
): WinchStudy {
  const winch = { ...given, task };
  const haulage = haulageOf(mechanism, winch);
  const { hauling, haul, line, all, force, gain, tension, power, layers, place, drumTorque, uses } = haulage;
  const found = haul.kind === 'hauled' ? haul : undefined;
  const energy = energyOf(winch, task, tension, place.out);
  const lift = (total: number): Lift => liftOf(winch, power, task, total);
  const onLevel = new Hauling(mechanism, winch, { ...task, slope: 0 });
  const ownEnd = ownEndOf(mechanism, winch, onLevel);
  const pulling = withPower(power, drumTorque);
  const omega = pulling?.speed ?? null;
  return {
    name: winch.name,
    task,
    kind: haul.kind,
    force,
    rise: found?.rise ?? 0,
    hole: line === undefined ? null : { line: mechanism.wheels[line]?.name ?? '', all },
    gain,
    tension,
    layers: layers.map((layer) => ({ ...layer, ...workOf(layer, power, tension) })),
    layer: place.layer?.layer ?? 0,
    layerKnown: place.out !== null,
    out: place.out,
    short: place.short,
    drumTorque,
    current: pulling?.current ?? null,
    speed: omega === null ? null : (omega * (place.layer?.diameter ?? 0)) / 2 / task.lines,
    anchor: force,
    wheels: wheelsOf(mechanism, task, haul),
    withDrive: found && force > 0 ? leastWithDrive(mechanism, hauling, found, line) : null,
    ownEnd: ownEnd && { line: ownEnd.line, ...lift(ownEnd.force) },
    hung: lift(mechanism.mass * mechanism.gravity),
    energy,
    uses,
    remarks: remarksOf(winch, power, layers, task, tension),
    cautions: winchCautions(winch, energy, mechanism.mass),
    pass: found !== undefined && !place.short && uses.every(({ use }) => use === null || use <= 1),
  };
}

/** Pull and speed of the rope from one layer. */
function workOf(layer: Layer, power: WinchPower, tension: number): Pick<WorkingLayer, 'pull' | 'speed'> {
  const radius = layer.diameter / 2;
  const pulling = withPower(power, tension * radius);
  return pulling === undefined
    ? { pull: null, speed: null }
    : { pull: power.stall / radius, speed: pulling.speed * radius };
}

/** Speed of the drum, rad/s, and current of all motors, A, under a torque at the drum; undefined without a motor. */
function withPower(
  power: WinchPower,
  drumTorque: number,
): { readonly speed: number; readonly current: number | null } | undefined {
  if (power.motors.length === 0) return undefined;
  const torque = drumTorque * power.torquePer;
  const states = power.motors.map((m) => ({ m, at: motorAt(m, torque * m.share, power.supply) }));
  const currents = states.map(({ m, at }) => (at.current === undefined ? Number.NaN : at.current * m.count));
  const current = currents.reduce((sum, one) => sum + one, 0);
  const speed = Math.min(...states.map(({ at }) => at.speed)) / power.speedPer;
  return { speed, current: Number.isNaN(current) ? null : current };
}

/** Loads before and meanwhile. Where no pull is needed they are those of the parked vehicle. */
function wheelsOf(mechanism: Mechanism, task: WinchTask, haul: Haul): HauledWheel[] {
  if (haul.kind !== 'hauled') return [];
  const held = mechanism.wheels.map((w) => ({ ...w, tyre: { ...w.tyre, grip: Number.MAX_VALUE } }));
  const stood = standAt({ ...mechanism, pulls: [], wheels: held }, evenSlope(task.slope), 0);
  const across = 1 / Math.cos(task.slope);
  const weight = mechanism.mass * mechanism.gravity;
  return mechanism.wheels.map(({ name, axle }, w) => {
    // parked, ground force is vertical: across the ground it is less by cos
    const vertical = stood.kind === 'stands' ? (stood.standing.loads[w] ?? 0) : null;
    const parked = vertical === null ? null : vertical / across;
    const load = haul.force > 0 || parked === null ? (haul.loads[w] ?? 0) : parked;
    return { name, axle, parked, load, off: load <= nothing * weight };
  });
}

/** Least pull with the drive doing its best, by bisection to a thousandth; null where the drive helps nothing. */
function leastWithDrive(
  mechanism: Mechanism,
  hauling: Hauling,
  haul: Haul & { kind: 'hauled' },
  line: number | undefined,
): number | null {
  if (!mechanism.wheels.some((w) => w.driven && w.torqueLimit > 0)) return null;
  if (hauling.helpedBy(0, haul, line)) return 0;
  let [low, high] = [0, haul.force];
  while (high - low > 1e-3 * haul.force) {
    const middle = (low + high) / 2;
    if (hauling.helpedBy(middle, haul, line)) high = middle;
    else low = middle;
  }
  return high;
}

/** Vertical pull at the winch at which the outermost axle line on its side leaves the ground, by bisection. */
function ownEndOf(
  mechanism: Mechanism,
  winch: Winch,
  hauling: Hauling,
): { readonly line: string; readonly force: number } | null {
  const front = winch.at.x >= mechanism.cg.x;
  const way = front ? 1 : -1;
  const end = mechanism.wheels.reduce((far, w) => (way * w.hub.x > way * far.hub.x ? w : far));
  const index = mechanism.wheels.indexOf(end);
  const weight = mechanism.mass * mechanism.gravity;
  const stays = (force: number) => (hauling.lifted(force)?.[index] ?? 0) > nothing * weight;
  if (!stays(0) || stays(weight)) return null;
  let [low, high] = [0, weight];
  while (high - low > 1e-4 * weight) {
    const middle = (low + high) / 2;
    if (stays(middle)) low = middle;
    else high = middle;
  }
  return { line: end.name, force: high };
}

/** Whether the winch lifts a force straight up, with its rope on the layer that the full drum has last (the hardest). */
function liftOf(winch: Winch, power: WinchPower, task: WinchTask, force: number): Lift {
  const tension = force / gainOf(task.lines, task.sheave);
  const drumTorque = (tension * (layersOf(winch).at(-1)?.diameter ?? 0)) / 2;
  const uses = usesOf(winch, power, { tension, drumTorque, force }).filter(
    ({ quantity }) => quantity !== 'force',
  );
  const refused = uses.some(({ use }) => use !== null && use > 1);
  const open = uses.some(({ use }) => use === null);
  return { force, tension, can: refused ? false : open ? null : true };
}

function energyOf(winch: Winch, task: WinchTask, tension: number, out: number | null): number | null {
  const { rope } = winch;
  if (rope.strength === undefined) return null;
  return storedIn({
    tension,
    lines: task.lines,
    sheave: task.sheave,
    length: (out ?? rope.length) / task.lines,
    strength: rope.strength,
    stretch: rope.stretch ?? typicalStretch[rope.kind],
  });
}
