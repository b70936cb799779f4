import { cell, nineDigits } from '../../../shared/csv.ts';
import { channels, type Recording, type RunEvent } from '../../../shared/recording.ts';
import type { Head } from '../../frames/units.ts';

/** Lines per piece of text handed out, so that a long recording is never held as one string. */
const LINES_PER_PIECE = 2000;

/** Head of a column: `time (s)`, `load[front] (N)`. */
function headOf({ channel, of }: Head, unit: string): string {
  return cell(`${channel}${channels[channel].per === 'run' ? '' : `[${of}]`} (${unit})`);
}

/**
 * A recording as CSV, piece by piece: a head with names and units, then one line per frame. All values in SI.
 * @param unitOf unit of a column
 * @throws RangeError when a column holds something that is not a finite number; the message names column and frame
 */
export function* recordingCsv(recording: Recording, unitOf: (head: Head) => string): Generator<string> {
  const { columns, frames, block } = recording;
  const heads = columns.map((head) => headOf(head, unitOf(head)));
  yield `${heads.join(',')}\n`;
  for (let from = 0; from < frames; from += LINES_PER_PIECE) {
    const lines: string[] = [];
    for (let f = from; f < Math.min(frames, from + LINES_PER_PIECE); f++) {
      const cells = columns.map((_, c) => valueAt(block, c * frames + f, () => `${heads[c]} in frame ${f}`));
      lines.push(cells.join(','));
    }
    yield `${lines.join('\n')}\n`;
  }
}

function valueAt(block: Float64Array, at: number, where: () => string): string {
  const value = block[at] ?? Number.NaN;
  if (!Number.isFinite(value)) throw new RangeError(`${where()} is not a finite number`);
  return nineDigits(value);
}

const eventHeads = [
  'time (s)',
  'station (m)',
  'kind',
  'of',
  'wheelStation (m)',
  'duration (s)',
  'height (m)',
  'torque (N·m)',
  'rating (N·m)',
  'says',
] as const;

/** The events of a run as CSV, in order of time; cells that an event of its kind has nothing for are empty. */
export function eventsCsv(events: readonly RunEvent[]): string {
  const lines = events.map((event) =>
    [
      nineDigits(event.time),
      nineDigits(event.station),
      event.kind,
      cell(subjectOf(event)),
      'wheelStation' in event ? nineDigits(event.wheelStation) : '',
      'duration' in event ? nineDigits(event.duration) : '',
      'height' in event ? nineDigits(event.height) : '',
      'torque' in event ? nineDigits(event.torque) : '',
      'rating' in event ? nineDigits(event.rating) : '',
      cell('side' in event ? event.side : 'cause' in event ? event.cause : ''),
    ].join(','),
  );
  return `${[eventHeads.join(','), ...lines].join('\n')}\n`;
}

/** Wheel, member, drive line part or body that an event is about; empty for the whole vehicle. */
function subjectOf(event: RunEvent): string {
  if ('wheel' in event) return event.wheel;
  if ('member' in event) return event.member;
  if ('part' in event) return event.part;
  return 'of' in event ? event.of : '';
}
