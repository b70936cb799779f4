import type { Ledger, LedgerLine } from '../../shared/report.ts';
import type { Run } from '../report/criterion.ts';
import { momentOf } from '../report/moments.ts';
import { brokenOff, sentence, stationWords } from '../report/words.ts';
import { steeringLines } from '../steering/ledger.ts';
import { strengthLines } from '../strength/lines.ts';
import { winchLines } from '../winch/ledger.ts';
import { bellyTracks } from './belly.ts';
import { endingLine } from './ending.ts';
import { gripTracks } from './grip.ts';
import { type DriveSeries, driveSeries, partTracks } from './parts.ts';
import { stopTracks } from './stops.ts';
import { tippingTracks } from './tipping.ts';
import { lineOf, rounding } from './track.ts';
import { torqueTracks } from './wheel-torque.ts';
import { usedWords } from './words.ts';

/** What a ledger may be told besides the run. */
export interface LedgerOptions {
  /** Members that may not meet a stop: theirs end the crossing. */
  readonly noStops?: readonly string[];
  /** What the parts of the drive line carry, where that was found before. */
  readonly series?: DriveSeries | undefined;
}

/**
 * All that could end the crossing of a recording, the nearest to its limit first: grip, every part of the drive line, pins,
 * rods, arms, bars and springs, tipping, belly, stops, and the end of the run itself. Parts without a rating come last, the
 * one that carries most first within its unit; they are called unknown, never safe.
 */
export function ledgerOf(
  mechanism: Run['mechanism'],
  recording: Run['recording'],
  options: LedgerOptions = {},
): Ledger {
  const run = { mechanism, recording };
  const lines = [...linesOf(run, options)].sort(inOrder);
  return { lines, says: verdictOf(run, lines) };
}

function linesOf(run: Run, { noStops = [], series = driveSeries(run) }: LedgerOptions): LedgerLine[] {
  const end = endingLine(run);
  if (run.recording.frames === 0) return end === undefined ? [] : [end];
  const tracks = [
    ...gripTracks(run),
    ...(series === undefined ? torqueTracks(run) : partTracks(run, series)),
    ...tippingTracks(run),
    ...bellyTracks(run),
    ...stopTracks(run, noStops),
  ];
  const lines = tracks.flatMap((track) => lineOf(track, run.recording) ?? []);
  const others = [
    ...strengthLines(run.mechanism, run.recording),
    ...winchLines(run.mechanism),
    ...steeringLines(run.mechanism, run.recording),
  ].map((line) => ended(line, run));
  return [...lines, ...others, ...(end === undefined ? [] : [end])].filter(isFiniteLine);
}

/** The same line with a full stop behind its words, and moments of which every figure is finite. */
function ended(line: LedgerLine, { recording }: Run): LedgerLine {
  const { says, moment, gives } = line;
  return {
    ...line,
    says: says.endsWith('.') ? says : `${says}.`,
    ...(moment === undefined ? {} : { moment: momentOf(recording, moment.frame) }),
    ...(gives === undefined ? {} : { gives: momentOf(recording, gives.frame) }),
  };
}

/** Whether all figures of a line are finite: a recording of a run that ran away may hold others. */
const isFiniteLine = ({ use, carries, limit }: LedgerLine): boolean =>
  [use ?? 0, carries, limit ?? 0].every(Number.isFinite);

/** Known lines by their use, the greatest first; then unknown ones. Of equal ones the document's order stays. */
function inOrder(a: LedgerLine, b: LedgerLine): number {
  if (a.use !== null && b.use !== null) return b.use - a.use;
  if (a.use === null && b.use === null) return 0;
  return a.use === null ? 1 : -1;
}

/** Whether a line is over its limit: where the crossing gives, or what is asked for beside it. */
export const isOver = (line: LedgerLine): boolean =>
  line.gives !== undefined || (line.use !== null && line.use > 1 + rounding && counts(line));

/** Whether a line is about a winch or a steering: asked for beside the crossing, not by it. */
export const isBeside = ({ sort, path }: LedgerLine): boolean =>
  sort === 'winch' || /^vehicle\.(winches|steering)\b/.test(path ?? '');

/** What a line is about: the same limit of the same part has the same key, whatever it carries. */
export const keyOf = ({ sort, of, quantity }: LedgerLine): string => `${sort} ${of} ${quantity}`;

/** Which line gives first on the way; of those that give in the same frame the one that is most over. */
export function firstToGive(lines: readonly LedgerLine[]): LedgerLine | undefined {
  return lines.reduce<LedgerLine | undefined>((first, line) => {
    if (line.gives === undefined) return first;
    if (first?.gives === undefined) return line;
    const later = line.gives.frame - first.gives.frame;
    return later < 0 || (later === 0 && (line.use ?? 0) > (first.use ?? 0)) ? line : first;
  }, undefined);
}

/** Lines that count when it is asked whether a crossing holds: those with a known limit that ends something. */
export const counts = ({ use, harmless }: LedgerLine): boolean => use !== null && !harmless;

/** What a line is called in a sentence. */
export function nameOf({ sort, of, quantity }: LedgerLine): string {
  if (sort === 'grip') return `the grip of ${of}`;
  if (sort === 'tipping') return `tipping ${of}`;
  return sort === 'stop' ? `the ${quantity.replace(' travel', ' stop')} of ${of}` : of;
}

/** What the whole ledger comes to, in words. */
function verdictOf(run: Run, lines: readonly LedgerLine[]): string {
  const unknown = lines.filter(({ use }) => use === null).length;
  const rest =
    unknown === 0
      ? ''
      : ` ${unknown === 1 ? 'One part has' : `${unknown} parts have`} no rating: unknown, not safe.`;
  return `${firstWords(run, lines)}${rest}${brokenOff(run)}`;
}

function firstWords(run: Run, lines: readonly LedgerLine[]): string {
  const first = firstToGive(lines);
  if (first !== undefined) return givesWords(run, first);
  const nearest = lines.find(counts);
  if (nearest === undefined || nearest.use === null) return 'Nothing on the ledger has a known limit.';
  const says = sentence(nearest.says);
  return nearest.use > 1 + rounding
    ? `Nothing gives on the way, but beside it one thing is over its limit. ${says}`
    : `Nothing gives. Nearest to its limit is ${nameOf(nearest)} with ${usedWords(nearest.use)}. ${says}`;
}

/** 'Front joint carries 1.9 N·m at station 710 mm and may carry 1.5 N·m (127 %): it is the first to give.' */
function givesWords(run: Run, line: LedgerLine): string {
  const { gives, moment } = line;
  if (gives === undefined) return '';
  const place =
    line.says.includes('at station') || moment === undefined
      ? ''
      : ` at ${stationWords(run, moment.station)}`;
  const said = `${line.says.replace(/\.$/, '')}${place}`;
  const begins = stationWords(run, gives.station);
  const from = said.includes(begins) ? '' : `, over its limit from ${begins} on`;
  return `${sentence(said)}${from}: it is the first to give.`;
}
