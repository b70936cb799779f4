import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { flights } from '../flights.ts';
import { nothingToJudge, type Outcome, unknownNames } from '../outcome.ts';
import { type LoadPeak, leastLoad } from '../wheel-load.ts';
import { brokenOff, momentWords, shareWords, stationWords, theWheel } from '../words.ts';
import { chosenOf, everyWheel, unknownOf, wheelsField } from './chosen.ts';

const fields = z.strictObject({
  least: quantity('ratio', 'Least share of its standing load that a wheel keeps, 0 to 1 or in per cent.', {
    least: 0,
    most: 1,
  }),
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
    const unknown = unknownOf(recording.wheels, wheels);
    if (unknown.length > 0) return unknownNames('wheel', unknown, recording.wheels, least, '1');
    const worst = leastShare(run, chosenOf(recording.wheels, wheels));
    return worst === undefined
      ? nothingToJudge(false, 'The run has no wheel load to judge.', least, '1')
      : verdictOf(run, worst, least);
  },
});

/** The wheel with the least share; one that carries nothing when standing keeps nothing. */
function leastShare(run: Run, wheels: readonly number[]): LoadPeak | undefined {
  const all = flights(run.recording);
  return wheels
    .flatMap((wheel) => leastLoad(run.recording, wheel, all) ?? [])
    .reduce<LoadPeak | undefined>((best, peak) => {
      if (best === undefined || (peak.share ?? 0) < (best.share ?? 0)) return peak;
      const longer = (peak.flight?.duration ?? 0) > (best.flight?.duration ?? 0);
      return peak.share === best.share && longer ? peak : best;
    }, undefined);
}

function verdictOf(run: Run, worst: LoadPeak, least: number): Outcome {
  const name = run.recording.wheels[worst.wheel] ?? '';
  const value = worst.share ?? 0;
  const says =
    worst.share === undefined
      ? `${theWheel(name)} carries nothing when standing, so it has no load to keep.`
      : `${theWheel(name)} goes down to ${shareWords(value)} of its standing load at ${stationWords(worst.wheelStation)}` +
        `${flightWords(worst)} (${momentWords(worst.moment)}).${brokenOff(run)}`;
  return {
    pass: value >= least,
    value,
    limit: least,
    unit: '1',
    shown: shareWords(value),
    says,
    of: name,
    moment: worst.moment,
  };
}

function flightWords({ flight }: LoadPeak): string {
  if (flight === undefined) return '';
  return `, off the ground for ${formatQuantity(flight.duration, 'time')}${flight.open ? ' until the end' : ''}`;
}
