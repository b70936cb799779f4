import type { Driveline, DrivePart, Supply } from '../driveline/driveline.ts';
import { inputFor, wayUp } from '../driveline/linear.ts';
import { standstillTorque } from '../driveline/motor.ts';
import { type MotorLaw, straightThrough } from '../driveline/part.ts';
import type { Winch } from './winch.ts';

/** One motor part behind a winch: its law, how many share the torque, and its share of the torque of the shaft. */
export interface WinchMotor {
  readonly name: string;
  readonly law: MotorLaw;
  readonly count: number;
  /** N·m of all `count` at standstill. */
  readonly stall: number;
  readonly share: number;
}

/** A part of the drive line on the way to a winch. */
export interface WayPart {
  readonly part: DrivePart;
  /** Torque at the output of ONE of it for 1 N·m at the drum. */
  readonly each: number;
}

/** What turns a winch. */
export interface WinchPower {
  readonly motors: readonly WinchMotor[];
  readonly supply: Supply | undefined;
  /** Torque on the motors' shaft for 1 N·m at the drum, and speed of that shaft over the drum's. */
  readonly torquePer: number;
  readonly speedPer: number;
  /** Parts of the drive line from the take-off up to the motors, for a power take-off. */
  readonly way: readonly WayPart[];
  /** Torque at the drum with the motors at standstill, N·m; 0 without a motor. */
  readonly stall: number;
}

/**
 * The motors behind a winch, and the way to them. A power take-off goes through its drive line part; the wheels are
 * taken to be let go meanwhile (a clutch or gear in neutral). Source: power balance of each stage.
 */
export function powerOf(winch: Winch, driveline: Driveline | undefined): WinchPower {
  const { ratio, efficiency } = winch.reduction;
  const supply = driveline?.supply;
  let torquePer = 1 / (ratio * efficiency);
  let speedPer = ratio;
  const way: WayPart[] = [];
  let motors: Omit<WinchMotor, 'share'>[] = [];
  if (winch.from >= 0 && driveline !== undefined) {
    for (const part of wayUp(driveline, winch.from)) {
      if (part.sort === 'motor') {
        motors = matesOf(driveline, part).map((mate) => motorPart(mate, supply));
        break;
      }
      way.push({ part, each: torquePer / part.count });
      torquePer *= inputFor(part);
      speedPer *= part.law.ratio;
    }
  } else if (winch.motor !== undefined) motors = [own(winch.motor, winch.name, supply)];
  const all = motors.reduce((sum, { stall }) => sum + stall, 0);
  return {
    motors: motors.map((m) => ({ ...m, share: all > 0 ? m.stall / all : 1 / motors.length })),
    supply,
    torquePer,
    speedPer,
    way,
    stall: all / torquePer,
  };
}

/** All motors on the shaft of one. */
function matesOf({ parts }: Driveline, motor: DrivePart): DrivePart[] {
  const at = parts.indexOf(motor);
  const mates = parts.find(({ inputs }) => inputs.includes(at))?.inputs ?? [at];
  return mates.flatMap((m) => parts[m] ?? []);
}

function motorPart(part: DrivePart, supply: Supply | undefined): Omit<WinchMotor, 'share'> {
  return {
    name: part.name,
    law: part.law.motor as MotorLaw,
    count: part.count,
    stall: standstillTorque(part, supply),
  };
}

/** The winch's own motor. */
function own(law: MotorLaw, name: string, supply: Supply | undefined): Omit<WinchMotor, 'share'> {
  // a motor outside the drive line: its law and its number are all that its torque depends on
  const part = { law: { ...straightThrough, motor: law }, count: 1 } as DrivePart;
  return { name, law, count: 1, stall: standstillTorque(part, supply) };
}

/** Speed, rad/s, and current of ONE motor, A, while all of them give `torque` N·m; undefined current where not known. */
export function motorAt(
  { law, count, stall }: WinchMotor,
  torque: number,
  supply: Supply | undefined,
): { readonly speed: number; readonly current: number | undefined } {
  const { stallTorque, noLoadSpeed, stallCurrent, noLoadCurrent = 0 } = law;
  const nominal = law.voltage ?? supply?.voltage ?? 1;
  const open = supply?.voltage ?? nominal;
  if (!(torque <= stall)) return { speed: 0, current: stallCurrent };
  if (stallCurrent === undefined) {
    const share = open / nominal;
    return {
      speed: noLoadSpeed * (share - torque / (count * stallTorque)),
      current: undefined,
    };
  }
  const resistance = nominal / stallCurrent;
  const perAmpere = stallTorque / Math.max(stallCurrent - noLoadCurrent, 1e-12);
  const current = torque / count / perAmpere + noLoadCurrent;
  const emf = open - count * current * (supply?.resistance ?? 0) - current * resistance;
  const perSpeed = (nominal - noLoadCurrent * resistance) / noLoadSpeed;
  return { speed: Math.max(0, emf / perSpeed), current };
}
