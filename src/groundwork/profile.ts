import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Problem, Problems } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { formatQuantity, fromUnit } from '../../shared/units.ts';
import { checkOrder, checkProfile, type Reading } from '../../sim/ground/csv-profile.ts';
import { type Format, lookAt, readColumns } from '../../sim/ground/csv-text.ts';
import { isList, type Json, valueAt, withValue } from '../documents/json.ts';
import { declined, type Edit, edited } from '../edits/edit.ts';
import { simplified } from '../edits/simplify.ts';

/** Largest file that is read, bytes, and the most points that a piece made of points by hand may have. */
export const MOST_BYTES = 20_000_000;
export const MOST_BY_HAND = 2000;

/** Units that a column may have. */
export const columnUnits = ['mm', 'cm', 'm', 'in', 'ft'] as const;
export type ColumnUnit = (typeof columnUnits)[number];

/** What was chosen about a file: which columns, in which units, and how it is written. */
export interface Choice extends Pick<Format, 'separator' | 'decimal'> {
  /** Columns, counted from 1. */
  readonly stationColumn: number;
  readonly heightColumn: number;
  readonly stationUnit: ColumnUnit;
  readonly heightUnit: ColumnUnit;
}

/** What a text looks like before anything is chosen. */
export interface Guess {
  readonly choice: Choice;
  /** Names of the columns: those of the header, or their numbers. */
  readonly columns: readonly string[];
  readonly header: boolean;
  readonly separator: string;
  readonly decimal: string;
  /** Columns whose header says their unit. */
  readonly told: { readonly station: boolean; readonly height: boolean };
}

const stationWords = /stat|chain|dist|^x\b|^s\b|weg|abst|läng|length/i;
const heightWords = /height|elev|alt|level|^z\b|^y\b|^h\b|höhe|profil/i;

/** Unit in a column's name: 'height [cm]', 'station_mm', 'z (in)'. */
function unitIn(name: string): ColumnUnit | undefined {
  const found = /(?:[\s_([/-])(mm|cm|m|in|ft)[\s)\]]*$/i.exec(name)?.[1]?.toLowerCase();
  return columnUnits.find((unit) => unit === found);
}

/** Column whose name says what it is; else the one that is usual there. Counted from 1. */
function columnFor(names: readonly string[], words: RegExp, usual: number): number {
  const found = names.findIndex((name) => words.test(name.trim()));
  return found < 0 ? Math.min(usual, Math.max(1, names.length)) : found + 1;
}

/** What to offer for a text: separator, header, columns and units as far as the text tells them. */
export function guessOf(text: string, format: Pick<Format, 'separator' | 'decimal'>): Guess {
  const seen = lookAt(text, format);
  const names = seen.header ?? [];
  const columns = Array.from({ length: seen.columns }, (_, i) => names[i] || `column ${i + 1}`);
  const stationColumn = columnFor(names, stationWords, 1);
  const wanted = columnFor(names, heightWords, 2);
  const heightColumn = wanted === stationColumn ? Math.min(2, columns.length) : wanted;
  const stationUnit = unitIn(names[stationColumn - 1] ?? '');
  const heightUnit = unitIn(names[heightColumn - 1] ?? '');
  return {
    columns,
    header: seen.header !== undefined,
    separator: seen.separator,
    decimal: seen.decimal,
    told: { station: stationUnit !== undefined, height: heightUnit !== undefined },
    choice: {
      ...format,
      stationColumn,
      heightColumn,
      stationUnit: stationUnit ?? heightUnit ?? 'mm',
      heightUnit: heightUnit ?? stationUnit ?? 'mm',
    },
  };
}

/** A profile as it was read, with all that is wrong with it. */
export interface Profile {
  readonly readings: readonly Reading[];
  /** m, the first at (0, 0). */
  readonly points: readonly Vec2[];
  readonly problems: readonly Problem[];
  readonly failed: boolean;
}

/** Reads a text as it was chosen. Problems carry the line: `text, line 12`. */
export function readProfile(text: string, choice: Choice): Profile {
  const problems = new Problems();
  const readings = readColumns(text, choice, 'text', problems);
  if (readings.length > limits.groundPoints) checkOrder(readings, 'text', problems);
  else checkProfile(readings, 'text', problems);
  const [first] = readings;
  const station = fromUnit(1, choice.stationUnit);
  const height = fromUnit(1, choice.heightUnit);
  const points =
    first === undefined
      ? []
      : readings.map((r) => ({
          x: (r.station - first.station) * station,
          z: (r.height - first.height) * height,
        }));
  return { readings, points, problems: problems.list, failed: problems.failed };
}

/** How a profile goes into the document: as points that can be moved, or as the text that it came in. */
export type Form = 'points' | 'text';

/** Whether so many points can go into a document in that form. */
export const fits = (count: number, form: Form): boolean =>
  count <= (form === 'points' ? MOST_BY_HAND : limits.groundPoints);

/** The smallest of the tolerances 1, 2, 5 … per decade, m, that leaves at most so many points. */
export function toleranceFor(points: readonly Vec2[], most: number, least: number): number {
  for (let power = Math.floor(Math.log10(least)); power < 4; power++)
    for (const digit of [1, 2, 5]) {
      const tolerance = digit * 10 ** power;
      if (tolerance >= least && simplified(points, tolerance).length <= most) return tolerance;
    }
  return 1e4;
}

/** A figure of a profile without the noise of units: to a nanometre. */
const plain = (figure: number): number => Number(figure.toFixed(6)) + 0;

/** A profile as a piece of ground, in millimetres or metres by its size. */
export function pieceFrom(points: readonly Vec2[], form: Form, title: string): Json {
  const named = title === '' ? {} : { title };
  const unit = (points.at(-1)?.x ?? 0) > 100 ? 'm' : 'mm';
  const per = fromUnit(1, unit);
  if (form === 'points')
    return {
      kind: 'table',
      ...named,
      points: points.map(({ x, z }) => ({
        station: `${plain(x / per)} ${unit}`,
        height: `${plain(z / per)} ${unit}`,
      })),
    };
  const lines = points.map(({ x, z }) => `${plain(x / per)},${plain(z / per)}`);
  return {
    kind: 'csv',
    ...named,
    text: `station,height\n${lines.join('\n')}\n`,
    stationUnit: unit,
    heightUnit: unit,
  };
}

/** Puts a profile at the end of the ground, or in place of a piece. */
export function layProfile(document: Json, piece: Json, instead?: readonly (string | number)[]): Edit {
  const says = 'import a profile';
  const was = valueAt(document, ['ground']);
  const pieces = isList(was) ? was : [];
  const index = instead === undefined ? pieces.length : Number(instead[1]);
  if (instead !== undefined && pieces[index] === undefined)
    return declined(document, says, 'ground', 'there is no such piece');
  const next =
    instead === undefined ? [...pieces, piece] : pieces.map((old, i) => (i === index ? piece : old));
  return edited(document, withValue(document, ['ground'], next), says, { select: ['ground', index] });
}

/** What a profile is like, in words: how long, how high, how many points. */
export function sizeInWords(points: readonly Vec2[]): string {
  const zs = points.map(({ z }) => z);
  let [low, high] = [0, 0];
  for (const z of zs) {
    low = Math.min(low, z);
    high = Math.max(high, z);
  }
  const long = formatQuantity(points.at(-1)?.x ?? 0, 'length', 4);
  const tall = formatQuantity(high - low, 'length', 3);
  return `${points.length.toLocaleString('en')} points, ${long} long, ${tall} from lowest to highest`;
}
