import type { Moment } from '../../shared/report.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Run } from './criterion.ts';

/** 'The middle wheel' for a wheel called 'middle'; a name that says wheel or axle itself is left alone. */
export function theWheel(name: string): string {
  return /wheel|axle/i.test(name) ? `The ${name}` : `The ${name} wheel`;
}

/** First letter large: names begin sentences as the user wrote them otherwise. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A share in per cent: '12 %'. */
export const shareWords = (share: number): string => formatQuantity(share, 'ratio');

/** A station for people: 'station 840 mm'. */
export const stationWords = (station: number): string => `station ${formatQuantity(station, 'length')}`;

/** When and where the vehicle was: 'vehicle at station 770 mm, 2.31 s'. */
export function momentWords(moment: Moment): string {
  return `vehicle at ${stationWords(moment.station)}, ${formatQuantity(moment.time, 'time')}`;
}

/** How a run ended that did not get to its goal: 'stuck: no progress at full torque'; undefined when it arrived. */
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
      return `the run diverged (${end.quantity} of ${end.body}: ${end.cause})`;
  }
}

/**
 * What to add to a verdict of a run that broke off: ' Holds only up to station 1.2 m, where the vehicle tipped over.'
 * Empty when the run arrived or its time was up.
 */
export function brokenOff(run: Run): string {
  const { end } = run.recording;
  const cause = endWords(run);
  if (cause === undefined || end.kind === 'time-up') return '';
  return ` Seen only up to ${stationWords(end.station)}: there ${cause}.`;
}

/** ['a', 'b', 'c'] as 'a, b and c'. */
export function listWords(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1] ?? ''}`;
}
