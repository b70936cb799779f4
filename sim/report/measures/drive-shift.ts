import { column, type Recording } from '../../../shared/recording.ts';
import { bogieTransfers } from '../../joints/bogie-transfer.ts';
import { pullingInFrame, pullingStanding } from '../../joints/pulling.ts';
import type { MeasureKind } from '../criterion.ts';
import { momentOf } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const shift: MeasureHead = {
  name: 'bogieDriveShift',
  title: 'Load moved within the bogie by its drive',
  says: 'Load that pull, drive torque and pivot height move from the front end of a rocking beam to its rear end, where its wheels pull hardest.',
  source: ownDefinition,
  unit: 'N',
};

const even: MeasureHead = {
  name: 'bogieEvenPivot',
  title: 'Pivot height at which the drive moves no load',
  says: 'Height in the drawing at which the pivot of a rocking beam would let its drive move no load between its ends, standing on level ground.',
  source: 'moments of the whole bogie about its pivot',
  unit: 'm',
};

/** What the drive does to the loads within each driven bogie. Nothing for a vehicle without one. */
export const driveShiftMeasure: MeasureKind = {
  name: 'driveShift',
  measure({ mechanism, recording }) {
    const standing = bogieTransfers(mechanism, pullingStanding(mechanism, recording.standing, 1));
    return standing.flatMap((bogie) => {
      const { name, cancelAt } = bogie;
      const frame = hardest(recording, [...bogie.front.wheels, ...bogie.rear.wheels]);
      const pulling = pullingInFrame(recording, frame);
      const there = pulling && bogieTransfers(mechanism, pulling, false).find((t) => t.name === name);
      return [
        measured(shift, there?.rear.change, { of: name, moment: there && momentOf(recording, frame) }),
        measured(even, cancelAt, { of: name }),
      ];
    });
  },
};

/** The frame in which these wheels together pull (or hold back) hardest. */
function hardest(recording: Recording, wheels: readonly number[]): number {
  const thrusts = wheels.map((wheel) => column(recording, 'thrust', wheel));
  let [best, most] = [0, 0];
  for (let frame = 0; frame < recording.frames; frame++) {
    const pull = Math.abs(thrusts.reduce((sum, thrust) => sum + (thrust[frame] as number), 0));
    if (pull > most) [best, most] = [frame, pull];
  }
  return best;
}
