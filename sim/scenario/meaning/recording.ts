import { columnHeads } from '../../../shared/recording.ts';
import { limits } from '../../../shared/schema/scenario.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { namesOf } from '../../frames/frames.ts';
import { courseOf } from '../course.ts';
import type { WholeCheck } from './check.ts';

const megabytes = (figures: number) => `${Math.ceil((figures * 8) / 1e6).toLocaleString('en')} MB`;

/** The longest run fits into memory: every frame holds one figure per column, eight bytes each. */
export const recordingFits: WholeCheck = ({ scenario, mechanism, ground }, problems) => {
  const { time, rate } = courseOf(scenario, ground);
  const columns = columnHeads(namesOf(mechanism)).length;
  const figures = Math.ceil(time * rate) * columns;
  if (figures <= limits.recordedFigures) return;
  const most = Math.floor(limits.recordedFigures / columns / time);
  problems.error(
    'run',
    `may last ${formatQuantity(time, 'time', 4)}, which at ${rate} frames per second makes a recording of ${megabytes(figures)}; at most ${megabytes(limits.recordedFigures)} are allowed`,
    most >= 10
      ? `ask for at most ${most} frames per second, or for a shorter run.time`
      : 'ask for a shorter run.time',
  );
};
