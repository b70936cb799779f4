import { cell, nineDigits } from '../../../shared/csv.ts';
import { column, hasChannel, type Recording } from '../../../shared/recording.ts';
import type { JointReport } from '../../../shared/report.ts';
import { Replay } from '../../joints/replay.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';

const jointHeads = [
  'part',
  'of',
  'quantity',
  'value',
  'unit',
  'count',
  'each',
  'x (m)',
  'z (m)',
  'frame',
  'time (s)',
  'station (m)',
] as const;

/** The greatest forces in joints and members as CSV; cells that a row has nothing for are empty. All values in SI. */
export function jointsCsv(joints: readonly JointReport[]): string {
  const number = (value: number | undefined) => (value === undefined ? '' : nineDigits(value));
  const lines = joints.map(({ part, of, quantity, value, unit, count, each, at, moment }) =>
    [
      part,
      cell(of),
      quantity,
      nineDigits(value),
      unit,
      number(count),
      number(each),
      number(at?.x),
      number(at?.z),
      moment.frame,
      nineDigits(moment.time),
      nineDigits(moment.station),
    ].join(','),
  );
  return `${[jointHeads.join(','), ...lines].join('\n')}\n`;
}

const memberHeads = [
  'of',
  'frame',
  'station (m)',
  'way (m)',
  'x (m)',
  'z (m)',
  'axial (N)',
  'shear (N)',
  'bending (N·m)',
] as const;

/**
 * Inner forces along every member in the frame where its bending moment is greatest, as CSV: both sides of every place
 * where something acts, from front to rear.
 */
export function membersCsv(mechanism: Mechanism, recording: Recording): string {
  const lines =
    recording.frames > 0 && hasChannel(recording, 'bending') ? diagramLines(mechanism, recording) : [];
  return `${[memberHeads.join(','), ...lines].join('\n')}\n`;
}

function diagramLines(mechanism: Mechanism, recording: Recording): string[] {
  const replay = new Replay(mechanism, recording);
  return recording.beams.flatMap((of, beam) => {
    const frame = worstFrame(recording, beam);
    replay.at(frame);
    const station = column(recording, 'station')[frame] ?? 0;
    return replay.diagram(beam).map(({ way, at, axial, shear, bending }) => {
      const figures = [station, way, at.x, at.z, axial, shear, bending];
      return [cell(of), frame, ...figures.map(nineDigits)].join(',');
    });
  });
}

/** Frame where a member's bending moment is greatest; the first of equal ones. */
function worstFrame(recording: Recording, beam: number): number {
  const bending = column(recording, 'bending', beam);
  return bending.reduce((best, moment, frame) => (moment > (bending[best] ?? 0) ? frame : best), 0);
}
