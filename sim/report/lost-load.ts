import { column, type RunEvent } from '../../shared/recording.ts';
import { formatQuantity } from '../../shared/units.ts';
import { type Support, supportsOf } from '../joints/support.ts';
import type { Run } from './criterion.ts';
import { lengthWords, placeWords, theWheel } from './words.ts';

/** A part of the loss below this share of all of it is not worth a word. */
const telling = 0.2;

const newtons = (force: number): string => formatQuantity(force, 'force', 2);

/**
 * Why an axle line carries less in a frame than when the run began, as a sentence made from the forces on the member that
 * carries it: 'It lost 14.7 N against the start: 12.9 N in rear torsion bars, as it hangs 9.8 mm lower.' The parts come
 * from taking the load apart at both moments; nothing is guessed. Undefined where it lost nothing, or where the forces are
 * not known.
 */
export function lostLoad(run: Run, wheel: number, frame: number): string | undefined {
  const { mechanism, recording } = run;
  const [before, now] = [0, frame].map((f) => supportsOf(mechanism, recording, wheel, f));
  if (before === undefined || now === undefined) return undefined;
  const changes = changesOf(before, now);
  const lost = -changes.reduce((sum, { load }) => sum + load, 0);
  if (!(lost > telling * (before.reduce((sum, { load }) => sum + load, 0) || Number.POSITIVE_INFINITY)))
    return undefined;
  const told = changes
    .filter(({ load }) => -load >= telling * lost)
    .sort((a, b) => a.load - b.load)
    .slice(0, 2);
  if (told.length === 0) return undefined;
  const parts = told.map((change) => `${newtons(-change.load)} ${wordsOf(run, wheel, frame, change)}`);
  const gained = changes.reduce((most, change) => (change.load > most.load ? change : most));
  const back =
    gained.load >= telling * lost ? [`${newtons(gained.load)} come back ${backWords(run, gained)}`] : [];
  return `It lost ${newtons(lost)} against the start of the run: ${[...parts, ...back].join('; ')}.`;
}

/** Where load came back from. */
function backWords({ mechanism }: Run, { kind, index }: Support): string {
  switch (kind) {
    case 'wheel':
      return `through ${theWheel(mechanism.wheels[index]?.name ?? '').replace(/^The/, 'the')}`;
    case 'element':
      return `through ${mechanism.elements[index]?.name ?? ''}`;
    case 'drive':
      return 'through the drive';
    default:
      return 'through weight, inertia and slope';
  }
}

/** What each part has changed by, N. */
function changesOf(before: readonly Support[], now: readonly Support[]): readonly Support[] {
  const sums = new Map<string, Support>();
  const add = (part: Support, sign: 1 | -1): void => {
    const key = `${part.kind} ${part.index}`;
    sums.set(key, { ...part, load: (sums.get(key)?.load ?? 0) + sign * part.load });
  };
  for (const part of before) add(part, -1);
  for (const part of now) add(part, 1);
  return [...sums.values()];
}

function wordsOf(run: Run, wheel: number, frame: number, { kind, index }: Support): string {
  const { mechanism, recording } = run;
  switch (kind) {
    case 'wheel': {
      const other = theWheel(mechanism.wheels[index]?.name ?? '').replace(/^The/, 'the');
      return `as ${other} on the same ${carrierWord(run, wheel)} carries less`;
    }
    case 'drive':
      return 'to the drive, whose pull and torque turn what carries it';
    case 'weight':
      return 'as less of the weight lies on it';
    case 'rest':
      return recording.mode === 'crawl' ? 'to the slope under it' : 'to inertia and the slope under it';
    case 'element': {
      const element = mechanism.elements[index];
      if (element?.stopOf !== undefined)
        return `to the ${element.stopOf.side} stop of ${mechanism.members[element.stopOf.member]?.name ?? ''}${metAt(run, element.stopOf, frame)}`;
      return `in ${element?.name ?? ''}${lower(run, wheel, frame)}`;
    }
  }
}

/** ', as it hangs 9.8 mm lower': how far the wheel has gone down in the chassis since the start. */
function lower({ recording }: Run, wheel: number, frame: number): string {
  const travel = column(recording, 'travel', wheel);
  const down = (travel[0] ?? 0) - (travel[frame] ?? 0);
  return down > 0 ? `, as it hangs ${lengthWords(down, 2)} lower` : '';
}

/** ', met at 212 mm': where the member met this stop last. */
function metAt(run: Run, stop: { readonly member: number; readonly side: string }, frame: number): string {
  const { recording, mechanism } = run;
  const time = column(recording, 'time')[frame] ?? 0;
  const name = mechanism.members[stop.member]?.name;
  const met = recording.events.findLast(
    (event: RunEvent) =>
      event.kind === 'stop-hit' && event.member === name && event.side === stop.side && event.time <= time,
  );
  return met === undefined ? '' : `, met with the vehicle at ${placeWords(run, met.station)}`;
}

/** 'beam' or 'member': what carries a wheel together with another. */
function carrierWord({ mechanism }: Run, wheel: number): string {
  const body = mechanism.wheels[wheel]?.body;
  return mechanism.members.some((m) => m.body === body && m.kind === 'bogie-beam') ? 'beam' : 'member';
}
