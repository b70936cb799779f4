import { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import { fromUnit } from '../../shared/units.ts';
import { checkProfile, type Reading } from './csv-profile.ts';
import { readColumns } from './csv-text.ts';
import { defineGround, type GroundSource } from './ground.ts';
import { spoken } from './size.ts';

const unit = (of: string) =>
  z
    .enum(['mm', 'cm', 'm', 'km', 'in', 'ft'])
    .meta({ description: `Unit of the ${of} column. The file doesn't say it, so the document must.` });

const columnOf = (of: string, fallback: number) =>
  z
    .union([z.int().min(1).max(1000), z.string().min(1).max(200)])
    .default(fallback)
    .meta({
      description: `Column of the ${of}: its number, counted from 1, or its name in the header.`,
      unit: '1',
    });

const fields = z.strictObject({
  file: z
    .string()
    .min(1)
    .max(1000)
    .meta({ description: 'Name of the file, beside the document. Give this or the text.' })
    .optional(),
  text: z
    .string()
    .max(5_000_000)
    .meta({ description: "The file's content itself. Give this or the file." })
    .optional(),
  stationUnit: unit('station'),
  heightUnit: unit('height'),
  stationColumn: columnOf('station', 1),
  heightColumn: columnOf('height', 2),
  separator: z.enum(['auto', 'comma', 'semicolon', 'tab']).default('auto').meta({
    description:
      'What stands between columns. Auto: a tab if the first line has one, else a semicolon if it has one, else a comma.',
  }),
  decimal: z.enum(['auto', 'point', 'comma']).default('auto').meta({
    description:
      'Decimal sign. Auto: a comma if columns are not separated by commas and a figure has one, else a point.',
  }),
});

/**
 * A measured or drawn profile from separated values: one point a line, joined by straight lines, moved so that its
 * first point is where the piece begins. Two lines with one station make a vertical face. Blank lines at the end and
 * lines that begin with # are skipped. Problems carry the line: `text, line 12` or `file, line 12`.
 */
export const csv = defineGround({
  kind: 'csv',
  title: 'Profile from a CSV file',
  source: 'RFC 4180 (separated values), with semicolon, tab and decimal comma as spreadsheets write them',
  fields,
  shape(params, source) {
    const problems = new Problems();
    const where = params.text === undefined ? 'file' : 'text';
    const text = textOf(params, source, problems);
    const readings = text === undefined ? [] : readColumns(text, params, where, problems);
    if (text !== undefined) checkProfile(readings, where, problems);
    const points = laid(readings, fromUnit(1, params.stationUnit), fromUnit(1, params.heightUnit));
    checkExtent(points, where, problems);
    return { points: problems.failed ? [] : points, problems: problems.list };
  },
  sample: {
    text: 'station;height\n0;0\n120,5;4,2\n240;11,8\n240;25\n400;0\n',
    stationUnit: 'mm',
    heightUnit: 'mm',
  },
});

/** The text to read, from the document or from the file it names. */
function textOf(
  params: z.output<typeof fields>,
  source: GroundSource,
  problems: Problems,
): string | undefined {
  const { file, text } = params;
  if (file !== undefined && text !== undefined)
    problems.error('text', 'stands beside a file', 'leave one of them out');
  else if (text !== undefined) return text;
  else if (file === undefined) problems.error('', 'has neither a file nor a text', 'give one of them');
  else {
    const read = source.file(file);
    if (read !== undefined) return read;
    problems.error(
      'file',
      `there is no file '${file}' here`,
      "check its name; where files can't be reached, put its content into 'text'",
    );
  }
  return undefined;
}

/** The points in m, the first at (0, 0); `station` and `height` are the metres in one of the file's units. */
function laid(readings: readonly Reading[], station: number, height: number): Vec2[] {
  const first = readings[0];
  if (first === undefined) return [];
  return readings.map((r) => ({
    x: (r.station - first.station) * station,
    z: (r.height - first.height) * height,
  }));
}

/** Reports a profile that is longer or higher than any ground a vehicle drives over in an hour: its unit is wrong. */
function checkExtent(points: readonly Vec2[], where: string, problems: Problems): void {
  const length = points.at(-1)?.x ?? 0;
  const highest = points.reduce((most, p) => Math.max(most, Math.abs(p.z)), 0);
  if (length > 1e6)
    problems.error(where, `is ${spoken(length)} long, more than 1000 km`, "check 'stationUnit'");
  if (highest > 1e4)
    problems.error(where, `is ${spoken(highest)} high, more than 10 km`, "check 'heightUnit'");
}
