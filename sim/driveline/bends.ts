import { column, type Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import { makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { JointAngles, type Placement } from './angles.ts';
import { errorAngle, speedRatio } from './cardan.ts';
import type { DrivePart } from './driveline.ts';

/** How far a joint bends in a pose, and what its bending does over a turn. */
export interface Bend {
  readonly of: string;
  /** Its place in the document. */
  readonly path: string;
  readonly joint: 'cardan' | 'constant';
  /** rad; null where nothing says its angle. */
  readonly angle: number | null;
  /** Angle that it can take, rad; null where not known. */
  readonly mostAngle: number | null;
  /** Least and greatest output speed over input speed in a turn: 1 for an even joint. */
  readonly speedRatio: { readonly least: number; readonly most: number } | null;
  /** Greatest angle between output and input in a turn, rad. */
  readonly errorAngle: number | null;
  /** Where in a run. */
  readonly moment?: Moment;
}

/** All joints in one pose, in the order of the drive line; as drawn without a placement. */
export function bendsIn({ driveline }: Mechanism, k?: Placement): Bend[] {
  if (driveline === undefined) return [];
  const angles = new JointAngles(driveline.parts);
  return driveline.parts.flatMap((part, p) =>
    part.law.angled === undefined ? [] : [bendOf(part, angles.at(p, k))],
  );
}

/** The worst angle of each joint over a run, with its moment. */
export function bendsOver(mechanism: Mechanism, recording: Recording): Bend[] {
  const { driveline } = mechanism;
  if (driveline === undefined) return [];
  const angles = new JointAngles(driveline.parts);
  const joints = driveline.parts.flatMap(({ law }, p) => (law.angled === undefined ? [] : [p]));
  const worst = joints.map(() => ({ angle: Number.NaN, frame: 0 }));
  const k = makeKinematics(mechanism.bodies.length);
  const poses = posesOf(mechanism, recording);
  for (let frame = 0; frame < recording.frames; frame++) {
    poses(k, frame);
    joints.forEach((p, j) => {
      const angle = angles.at(p, k);
      const seen = worst[j] as (typeof worst)[number];
      if (angle > seen.angle || Number.isNaN(seen.angle)) worst[j] = { angle, frame };
    });
  }
  const [time, station] = [column(recording, 'time'), column(recording, 'station')];
  return joints.map((p, j) => {
    const { angle, frame } = worst[j] as (typeof worst)[number];
    const moment = { frame, time: time[frame] ?? 0, station: station[frame] ?? 0 };
    return { ...bendOf(driveline.parts[p] as DrivePart, angle), moment };
  });
}

/** Fills a placement with the poses of a frame, without looking its columns up again. */
export function posesOf(mechanism: Mechanism, recording: Recording) {
  const columns = mechanism.bodies.map((_, b) => ({
    x: column(recording, 'x', b),
    z: column(recording, 'z', b),
    angle: column(recording, 'angle', b),
  }));
  return (k: ReturnType<typeof makeKinematics>, frame: number): void => {
    columns.forEach(({ x, z, angle }, b) => {
      setPose(k, mechanism, b, { x: x[frame] ?? 0, z: z[frame] ?? 0, angle: angle[frame] ?? 0 });
    });
  };
}

function bendOf(part: DrivePart, angle: number): Bend {
  const joint = part.law.angled?.joint ?? 'constant';
  const known = Number.isFinite(angle);
  const cardan = joint === 'cardan' && known;
  const ends = cardan
    ? { least: speedRatio(angle, Math.PI / 2), most: speedRatio(angle, 0) }
    : { least: 1, most: 1 };
  return {
    of: part.name,
    path: `vehicle.driveline.parts[${part.index}]`,
    joint,
    angle: known ? angle : null,
    mostAngle: part.law.angled?.mostAngle ?? null,
    speedRatio: known ? ends : null,
    errorAngle: known ? (cardan ? errorAngle(angle) : 0) : null,
  };
}
