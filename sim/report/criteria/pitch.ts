import { z } from 'zod';
import { column } from '../../../shared/recording.ts';
import { quantity } from '../../../shared/schema/quantity.ts';
import { pitchCause } from '../causes/pitch.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { greatestOf, leastOf, momentOf, type Peak } from '../moments.ts';
import { because, withoutValue } from '../outcome.ts';
import { angleWords, besideLimit, brokenOff, momentWords } from '../words.ts';

const most = (way: string) =>
  quantity('angle', `Greatest chassis pitch nose-${way}, against the drawn position.`, {
    least: 0,
    most: Math.PI,
  }).optional();

const fields = z.strictObject({ up: most('up'), down: most('down') }).check((context) => {
  if (context.value.up === undefined && context.value.down === undefined) {
    context.issues.push({ code: 'custom', message: 'needs a limit: up, down or both', input: context.value });
  }
});

interface Side {
  readonly way: 'up' | 'down';
  readonly limit: number;
  /** Pitch this way, rad, positive this way. */
  readonly peak: Peak;
}

/** The chassis pitches no further than asked, nose-up and nose-down. */
export const pitch = defineCriterion({
  kind: 'pitch',
  title: 'Chassis stays level',
  fields,
  sample: { up: '25 deg', down: '20 deg' },
  asks({ up, down }) {
    const limits = [
      ...(up === undefined ? [] : [`${angleWords(up)} nose-up`]),
      ...(down === undefined ? [] : [`${angleWords(down)} nose-down`]),
    ];
    return `The chassis pitches at most ${limits.join(' and ')}`;
  },
  judge({ up, down }, run) {
    const sides = [...sideOf(run, 'up', up), ...sideOf(run, 'down', down)];
    // The side that uses most of its limit is the worst one; with a limit of 0 any pitch at all is.
    const worst = sides.reduce<Side | undefined>(
      (best, side) =>
        best === undefined || side.peak.value - side.limit > best.peak.value - best.limit ? side : best,
      undefined,
    );
    if (worst === undefined)
      return withoutValue(false, 'The run has no pitch to judge.', {
        limit: up ?? down ?? null,
        unit: 'rad',
      });
    const { way, limit, peak } = worst;
    const moment = momentOf(run.recording, peak.frame);
    const shown = `${besideLimit(angleWords, peak.value, limit)} nose-${way}`;
    const says = `The chassis pitches ${shown} at most (${momentWords(run, moment)}).${brokenOff(run)}`;
    return {
      pass: sides.every((side) => side.peak.value <= side.limit),
      value: peak.value,
      limit,
      unit: 'rad',
      shown,
      says,
      ...because(peak.value > 0 ? pitchCause(run, peak.frame) : undefined),
      moment,
    };
  },
});

function sideOf({ recording }: Run, way: Side['way'], limit: number | undefined): readonly Side[] {
  if (limit === undefined) return [];
  const peak = way === 'up' ? greatestOf(column(recording, 'pitch')) : leastOf(column(recording, 'pitch'));
  if (peak === undefined) return [];
  return [
    { way, limit, peak: { value: Math.max(0, way === 'up' ? peak.value : -peak.value), frame: peak.frame } },
  ];
}
