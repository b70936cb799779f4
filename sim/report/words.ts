import type { Moment } from '../../shared/report.ts';
import { formatQuantity, formatShare } from '../../shared/units.ts';
import type { Run } from './criterion.ts';

/** 'The middle wheel' for a wheel called 'middle'; a name that says wheel or axle itself is left as it is. */
export function theWheel(name: string): string {
  return /wheel|axle/i.test(name) ? `The ${name}` : `The ${name} wheel`;
}

/** First letter large, for a name that begins a sentence. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A share in per cent: '12 %'. */
export const shareWords = (share: number, digits = 3): string => formatShare(share, digits);

/** A length, time or angle in the unit that fits it. */
export const lengthWords = (metres: number, digits = 3): string => formatQuantity(metres, 'length', digits);
export const timeWords = (seconds: number, digits = 3): string => formatQuantity(seconds, 'time', digits);
export const angleWords = (radians: number, digits = 3): string => formatQuantity(radians, 'angle', digits);

/**
 * A value in words beside its limit: with so many digits that a value on the wrong side of the limit does not look
 * like the limit itself (19.96 % of 20 % is not '20 %').
 */
export function besideLimit(
  words: (value: number, digits?: number) => string,
  value: number,
  limit: number,
): string {
  for (let digits = 3; digits < 12; digits++) {
    if (value === limit || words(value, digits) !== words(limit, digits)) return words(value, digits);
  }
  return words(value, 12);
}

/** Vehicles with wheels from this radius on are spoken of in metres, models in millimetres, m. */
const largeWheel = 0.2;

/** A place along the way for people, in one unit for one vehicle: '840 mm' of a model, '13.44 m' of a large one. */
export function placeWords(run: Run, station: number, digits = 3): string {
  const large = run.mechanism.size >= largeWheel;
  return large
    ? formatQuantity(station, 'length', digits + 1, 'm')
    : formatQuantity(station, 'length', digits, 'mm');
}

/** The same as a station: 'station 840 mm'. */
export const stationWords = (run: Run, station: number): string => `station ${placeWords(run, station)}`;

/** When and where the vehicle was: 'vehicle at station 770 mm, 2.31 s'; a crawl has all the time in the world. */
export function momentWords(run: Run, moment: Moment): string {
  const where = `vehicle at ${stationWords(run, moment.station)}`;
  return run.recording.mode === 'crawl' ? where : `${where}, ${timeWords(moment.time)}`;
}

/** How a run ended that did not get to its goal: 'the vehicle tipped over'; undefined when it arrived. */
export function endWords(run: Run): string | undefined {
  const { end } = run.recording;
  switch (end.kind) {
    case 'arrived':
      return undefined;
    case 'time-up':
      return 'the time was up';
    case 'stuck':
      return `the vehicle was stuck (${end.cause})`;
    case 'tipped':
      return 'the vehicle tipped over';
    case 'diverged':
      return `the computation broke down (${end.quantity} of ${end.body}: ${end.cause})`;
  }
}

/**
 * What to add to a verdict on a run that broke off: ' Seen only up to station 1200 mm: there the vehicle tipped over.'
 * Empty when the run arrived or its time was up.
 */
export function brokenOff(run: Run): string {
  const { end } = run.recording;
  const cause = endWords(run);
  if (cause === undefined || end.kind === 'time-up') return '';
  return ` Seen only up to ${stationWords(run, end.station)}: there ${cause}.`;
}

/** ['a', 'b', 'c'] as 'a, b and c'. */
export function listWords(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;
}
