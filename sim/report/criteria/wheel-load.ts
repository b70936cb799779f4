import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { lostLoad } from '../lost-load.ts';
import { meanwhile } from '../meanwhile.ts';
import { type Outcome, unknownNames, withoutValue } from '../outcome.ts';
import { type LoadPeak, leastShare } from '../wheel-load.ts';
import {
  besideLimit,
  brokenOff,
  momentWords,
  shareWords,
  stationWords,
  theWheel,
  timeWords,
} from '../words.ts';
import { chosenOf, everyWheel, unknownOf, wheelsField } from './chosen.ts';

const fields = z.strictObject({
  least: quantity('ratio', 'Least share of its standing load that a wheel keeps.', { least: 0, most: 1 }),
  wheels: wheelsField,
});

/** Every wheel keeps a share of its standing load throughout the run. */
export const wheelLoad = defineCriterion({
  kind: 'wheel-load',
  title: 'Wheels stay loaded',
  fields,
  sample: { least: '20 %' },
  asks: ({ least, wheels }) =>
    `${everyWheel(wheels)} keeps at least ${shareWords(least)} of its standing load`,
  judge({ least, wheels }, run) {
    const { recording } = run;
    const limit = { limit: least, unit: '1' };
    const unknown = unknownOf(recording.wheels, wheels);
    if (unknown.length > 0) return unknownNames('wheel', unknown, recording.wheels, limit);
    const chosen = chosenOf(recording.wheels, wheels);
    const idle = chosen.find((wheel) => !((recording.standing.loads[wheel] ?? 0) > 0));
    if (idle !== undefined) return carriesNothing(recording.wheels[idle] ?? '', least);
    const worst = leastShare(recording, chosen);
    return worst === undefined
      ? withoutValue(false, 'The run has no wheel load to judge.', limit)
      : verdictOf(run, worst, least);
  },
});

function carriesNothing(name: string, least: number): Outcome {
  const says = `${theWheel(name)} carries nothing when standing, so it has no load to keep.`;
  return { pass: false, value: 0, limit: least, unit: '1', shown: shareWords(0), says, of: name };
}

function verdictOf(run: Run, worst: LoadPeak, least: number): Outcome {
  const name = run.recording.wheels[worst.wheel] ?? '';
  const value = worst.share ?? 0;
  const shown = besideLimit(shareWords, value, least);
  const why = value < least ? meanwhile(run, worst.wheel, worst.moment.frame) : '';
  const cause = lostLoad(run, worst.wheel, worst.moment.frame);
  const says =
    `${theWheel(name)} goes down to ${shown} of its standing load at ${stationWords(run, worst.wheelStation)}` +
    `${flightWords(worst)} (${momentWords(run, worst.moment)}).${why}${brokenOff(run)}`;
  return {
    pass: value >= least,
    value,
    limit: least,
    unit: '1',
    shown,
    says,
    ...(cause === undefined ? {} : { cause }),
    of: name,
    moment: worst.moment,
  };
}

function flightWords({ flight }: LoadPeak): string {
  if (flight === undefined) return '';
  return `, off the ground for ${timeWords(flight.duration)}${flight.open ? ' until the end' : ''}`;
}
