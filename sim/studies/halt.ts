import { column } from '../../shared/recording.ts';
import type { Source } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { senseOf } from '../report/way.ts';
import { apart } from '../statics/crawl-watch.ts';

/** Where a crossing that goes on regardless would have ended for want of grip or torque. */
export interface Halt {
  /** As a sentence without its stop. */
  readonly says: string;
  /** The vehicle's station there, m. */
  readonly station: number;
  /** Whether it lies before a station, m; before the end of the crossing when none is given. */
  before(station: number | undefined): boolean;
}

/** Slack of the comparison with grip and torque, the same as that of a crossing that stops there. */
const slack = 1.0001;

/** The first station at which a driven wheel wants more grip or torque than it has. */
export function haltOf(run: Run): Halt | undefined {
  const { mechanism, recording } = run;
  const lines = mechanism.wheels.flatMap((wheel, w) =>
    wheel.driven
      ? [
          {
            wheel,
            normal: column(recording, 'normal', w),
            thrust: column(recording, 'thrust', w),
            torque: column(recording, 'torque', w),
          },
        ]
      : [],
  );
  const torques = mechanism.wheels.map((_, w) => column(recording, 'torque', w));
  for (let f = 0; f < recording.frames; f++) {
    const overtaxed = overtaxedAt(f, mechanism.drive.sources ?? [], torques);
    if (overtaxed !== undefined) return halted(run, f, overtaxed);
    for (const { wheel, normal, thrust, torque } of lines) {
      const load = normal[f] as number;
      if (!(load > 0)) continue;
      const wants = Math.abs(thrust[f] as number) / load;
      const turns = Math.abs(torque[f] as number);
      if (wants > slack * wheel.tyre.grip)
        return halted(
          run,
          f,
          `${wheel.name} needs a grip of ${apart(wants, wheel.tyre.grip).join(' and has ')}`,
        );
      if (turns > slack * wheel.torqueLimit)
        return halted(run, f, `${wheel.name} needs ${apart(turns, wheel.torqueLimit).join(' N·m and has ')}`);
    }
  }
  return undefined;
}

/** Which motor would have to give more than it has in a frame, as a sentence. */
function overtaxedAt(
  frame: number,
  sources: readonly Source[],
  torques: readonly Float64Array[],
): string | undefined {
  for (const { name, needs, limit } of sources) {
    const asked = needs.reduce((sum, need, w) => sum + need * (torques[w]?.[frame] ?? 0), 0);
    if (Math.abs(asked) > slack * limit) return `${name} needs ${apart(asked, limit).join(' N·m and has ')}`;
  }
  return undefined;
}

function halted(run: Run, frame: number, says: string): Halt {
  const here = column(run.recording, 'station')[frame] as number;
  return {
    says,
    station: here,
    before: (station) => station === undefined || senseOf(run) * (station - here) > 0,
  };
}
