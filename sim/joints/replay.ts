import { type Channel, column, hasChannel, poseAt, type Recording } from '../../shared/recording.ts';
import { makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { CutPoint } from './cuts.ts';
import { JointForces } from './forces.ts';

/**
 * The inner forces of members in any frame of a recording, found again from its columns: for drawing them along the
 * members. For a drive the accelerations follow from the recorded joint forces.
 */
export class Replay {
  readonly #mechanism: Mechanism;
  readonly #recording: Recording;
  readonly #forces: JointForces;
  readonly #k;

  /** @throws RangeError when the recording was made without the forces in joints and members. */
  constructor(mechanism: Mechanism, recording: Recording) {
    if (!hasChannel(recording, 'unbalanced'))
      throw new RangeError('this recording was made without the forces in joints and members');
    this.#mechanism = mechanism;
    this.#recording = recording;
    this.#forces = new JointForces(mechanism);
    this.#k = makeKinematics(mechanism.bodies.length);
  }

  /** Goes to a frame and finds its forces; overwritten by the next call. */
  at(frame: number): JointForces {
    const { bodies } = this.#mechanism;
    const { given } = this.#forces;
    for (let b = 0; b < bodies.length; b++)
      setPose(this.#k, this.#mechanism, b, poseAt(this.#recording, b, frame));
    this.#fill(given.groundX, 'groundX', frame);
    this.#fill(given.groundZ, 'groundZ', frame);
    this.#fill(given.torque, 'torque', frame);
    this.#fill(given.travel, 'elementTravel', frame);
    this.#fill(given.effort, 'elementEffort', frame);
    this.#fill(given.tension, 'rodTension', frame);
    if (this.#recording.mode === 'drive') {
      const [pinX, pinZ, pinMoment] = [
        this.#row('pinX', frame),
        this.#row('pinZ', frame),
        this.#row('pinMoment', frame),
      ];
      for (let b = 0; b < bodies.length; b++) given.spin[b] = this.#spin(b, frame);
      this.#forces.accelerate(this.#k, pinX, pinZ, pinMoment);
    }
    this.#forces.solve(this.#k);
    return this.#forces;
  }

  /** Inner forces along member `beam` of the recording's beams in the frame gone to last, from its front to its rear end. */
  diagram(beam: number): CutPoint[] {
    return this.#forces.diagram(beam, this.#k);
  }

  #fill(out: Float64Array, channel: Channel, frame: number): void {
    for (let i = 0; i < out.length; i++) out[i] = column(this.#recording, channel, i)[frame] ?? 0;
  }

  #row(channel: 'pinX' | 'pinZ' | 'pinMoment', frame: number): Float64Array {
    const row = new Float64Array(this.#recording.joints.length);
    this.#fill(row, channel, frame);
    return row;
  }

  /** Spin of a body, rad/s, from the frames before and after. */
  #spin(b: number, frame: number): number {
    const angle = column(this.#recording, 'angle', b);
    const time = column(this.#recording, 'time');
    const [from, to] = [Math.max(0, frame - 1), Math.min(this.#recording.frames - 1, frame + 1)];
    const span = (time[to] ?? 0) - (time[from] ?? 0);
    return span > 0 ? ((angle[to] ?? 0) - (angle[from] ?? 0)) / span : 0;
  }
}
