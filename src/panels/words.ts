import type { RunEnd, RunEvent } from '../../shared/recording.ts';
import { formatQuantity } from '../../shared/units.ts';

const station = (metres: number): string => `at ${formatQuantity(metres, 'length', 4)}`;

/** A sentence whose figures keep their units beside them where its lines break: no-break spaces, '50 ms' and '20 %'. */
export function unbroken(sentence: string): string {
  return sentence.replace(/(\d) (?=(?:%|[mkM]?m|m?s|[mkM]?N|k?g|t|m?J)(?!\w))/g, '$1\u00a0');
}

/** What happened, in a few words with its place: 'middle lifts off at 843 mm'. */
export function eventWords(event: RunEvent): string {
  switch (event.kind) {
    case 'lift-off':
      return `${event.wheel} lifts off ${station(event.wheelStation)}`;
    case 'touch-down': {
      const away = formatQuantity(event.duration, 'time');
      return `${event.wheel} touches down ${station(event.wheelStation)} after ${away}, ${formatQuantity(event.height, 'length')} high`;
    }
    case 'grip-limit':
      return `${event.wheel} is at its grip limit ${station(event.wheelStation)}`;
    case 'torque-limit':
      return `${event.wheel} is at its torque limit ${station(event.wheelStation)}`;
    case 'stop-hit':
      return `${event.member} meets its ${event.side} stop, vehicle ${station(event.station)}`;
    case 'body-touch':
      return `the chassis touches the ground, vehicle ${station(event.station)}`;
    case 'tip-over':
      return `the vehicle tips over ${station(event.station)}`;
    case 'snap':
      return `the ${event.of} jumps to another balance, vehicle ${station(event.station)}`;
    case 'stall':
      return `${event.part} stalls, vehicle ${station(event.station)}`;
    case 'current-limit':
      return `${event.part} is at its current limit, vehicle ${station(event.station)}`;
    case 'slip':
      return `${event.part} slips, vehicle ${station(event.station)}`;
    case 'skip': {
      const asked = formatQuantity(event.torque, 'torque');
      return `${event.part} is asked for ${asked} and rated for ${formatQuantity(event.rating, 'torque')}: its gears may skip, vehicle ${station(event.station)}`;
    }
    case 'stuck':
      return `the vehicle is stuck ${station(event.station)}: ${event.cause}`;
  }
}

/** Short name of a kind of event, for filters and tables. */
export const eventTitles: Readonly<Record<RunEvent['kind'], string>> = {
  'lift-off': 'lift-off',
  'touch-down': 'touch-down',
  'grip-limit': 'grip limit',
  'torque-limit': 'torque limit',
  'stop-hit': 'stop met',
  'body-touch': 'chassis on the ground',
  'tip-over': 'tip-over',
  snap: 'jump',
  stall: 'motor stalls',
  'current-limit': 'current limit',
  slip: 'slip',
  skip: 'gear past its rating',
  stuck: 'stuck',
};

/** How a run ended that did not get to its goal, as a sentence; undefined when it arrived. */
export function endSentence(end: RunEnd): string | undefined {
  const where = `at ${formatQuantity(end.time, 'time')}, station ${formatQuantity(end.station, 'length')}`;
  switch (end.kind) {
    case 'arrived':
      return undefined;
    case 'time-up':
      return `The time was up ${where}.`;
    case 'stuck':
      return `The vehicle was stuck ${where}: ${end.cause}.`;
    case 'tipped':
      return `The vehicle tipped over ${where}.`;
    case 'diverged':
      return `The run diverged ${where}: ${end.quantity} of ${end.body}, ${end.cause}. Frames up to there are good.`;
  }
}
