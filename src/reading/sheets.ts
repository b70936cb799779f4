import type { Measure, Report } from '../../shared/report.ts';
import type { Change } from '../../sim/report/changes.ts';
import type { Tracks } from '../charts/tracks.ts';
import type { Way } from '../panels/judge.ts';
import type { Mapped } from '../runs/mapping.ts';
import type { ToldLimits } from '../workers/study-protocol.ts';
import type { LineStrip } from './lines.ts';
import type { Sheet, SheetCell, SheetColumn } from './sheet.ts';

const at = (values: Float64Array, frame: number): number => values[frame] ?? Number.NaN;

const moment: readonly SheetColumn[] = [
  { title: 'time', unit: 's' },
  { title: 'station of the vehicle', unit: 'm' },
];

/** A row per frame: time, station of the vehicle, then the cells of the frame. */
function perFrame(tracks: Tracks, cells: (frame: number) => readonly SheetCell[]): Sheet['rows'] {
  return Array.from({ length: tracks.frames }, (_, frame) => [
    at(tracks.time, frame),
    at(tracks.station, frame),
    ...cells(frame),
  ]);
}

/** The bands: each wheel's own station, its load, the share of its standing load, and whether it is off the ground. */
export function bandsSheet(tracks: Tracks): Sheet {
  const columns = tracks.wheels.flatMap(({ name }) => [
    { title: `station ${name}`, unit: 'm' },
    { title: `load ${name}`, unit: 'N' },
    { title: `share of standing load ${name}`, unit: '1' },
    { title: `off the ground ${name}`, unit: '' },
  ]);
  return {
    title: 'Bands',
    columns: [...moment, ...columns],
    rows: perFrame(tracks, (frame) =>
      tracks.wheels.flatMap(({ station, load, standing, gap }) => [
        at(station, frame),
        at(load, frame),
        standing > 0 ? at(load, frame) / standing : null,
        at(gap, frame) > 0 ? 'off' : 'on',
      ]),
    ),
  };
}

/** The strips: load and travel of each wheel, pitch of the chassis. */
export function stripsSheet(tracks: Tracks): Sheet {
  const each = (title: string, unit: string) =>
    tracks.wheels.map(({ name }) => ({ title: `${title} ${name}`, unit }));
  return {
    title: 'Strips',
    columns: [...moment, ...each('load', 'N'), ...each('travel', 'm'), { title: 'pitch', unit: 'rad' }],
    rows: perFrame(tracks, (frame) => [
      ...tracks.wheels.map(({ load }) => at(load, frame)),
      ...tracks.wheels.map(({ travel }) => at(travel, frame)),
      at(tracks.pitch, frame),
    ]),
  };
}

/** The lines that were added to the strips. */
export function linesSheet(tracks: Tracks, strips: readonly LineStrip[]): Sheet {
  const curves = strips.flatMap(({ curves: lines, offers }) =>
    lines.map((curve, i) => ({
      values: curve.values,
      title: offers[i]?.title ?? '',
      unit: offers[i]?.unit ?? '1',
    })),
  );
  return {
    title: 'Lines',
    columns: [...moment, ...curves.map(({ title, unit }) => ({ title, unit }))],
    rows: perFrame(tracks, (frame) => curves.map(({ values }) => at(values, frame))),
  };
}

/** The limit of each kind of obstacle, and its curves over grip and mass where they were found. */
export function limitsSheet({ found }: ToldLimits): Sheet {
  // Slopes are angles, everything else is a length: two columns each, so that a column keeps one unit.
  const size = (value: number | undefined, unit: string): readonly SheetCell[] =>
    unit === 'rad' ? [null, value ?? null] : [value ?? null, null];
  const row = (
    title: string,
    unit: string,
    grip: number | null,
    mass: number | null,
    limit: number,
    today: number | undefined,
    by: string,
  ): readonly SheetCell[] => [title, grip, mass, ...size(limit, unit), ...size(today, unit), by];
  return {
    title: 'Limits',
    columns: [
      { title: 'obstacle', unit: '' },
      { title: 'with grip', unit: '1' },
      { title: 'with mass', unit: 'kg' },
      { title: 'limit', unit: 'm' },
      { title: 'limit of slope', unit: 'rad' },
      { title: 'here', unit: 'm' },
      { title: 'slope here', unit: 'rad' },
      { title: 'stopped by', unit: '' },
    ],
    rows: found.flatMap(({ title, unit, size: limit, today, halt, overGrip, overMass }) => [
      row(title, unit, null, null, limit, today, halt?.says ?? 'nothing up to there'),
      ...(overGrip ?? []).map((p) => row(title, unit, p.at, null, p.size, undefined, p.by ?? '')),
      ...(overMass ?? []).map((p) => row(title, unit, null, p.at, p.size, undefined, p.by ?? '')),
    ]),
  };
}

/** A map: each place of its grid with the measure there, and whether everything asked for holds. */
export function mapSheet({ plane, tile, measure }: Mapped, about: { title: string; unit: string }): Sheet {
  const unitOf = { length: 'm', angle: 'rad', torque: 'N·m' } as Readonly<Record<string, string>>;
  const side = ({ knob }: Mapped['plane']['x']): SheetColumn => ({
    title: knob.name,
    unit: unitOf[knob.dimension] ?? '1',
  });
  const columns = [
    side(plane.x),
    side(plane.z),
    { title: about.title === '' ? measure : about.title, unit: about.unit },
    { title: 'everything asked for holds', unit: '' },
  ];
  const rows: SheetCell[][] = [];
  for (let r = 0; tile !== undefined && r < tile.rows; r += 1)
    for (let c = 0; c < tile.columns; c += 1) {
      const i = r * tile.columns + c;
      const value = tile.values[i] ?? Number.NaN;
      const step = (from: number, to: number, k: number, n: number) => from + ((to - from) * k) / (n - 1);
      rows.push([
        step(tile.from.x, tile.to.x, c, tile.columns),
        step(tile.from.z, tile.to.z, r, tile.rows),
        Number.isFinite(value) ? value : null,
        Number.isFinite(value) ? ((tile.holds[i] ?? 0) >= 0.5 ? 'yes' : 'no') : '',
      ]);
    }
  return { title: 'Map', columns, rows };
}

const wayWords: Readonly<Record<Way, string>> = { better: 'better', worse: 'worse', moved: '' };

/** Title of a change with what it is about. */
export function changeTitle(change: Change): string {
  if (change.kind === 'verdict') return change.asks;
  return change.of === undefined ? change.title : `${change.title}, ${change.of}`;
}

/** What differs between two runs: one row each, with both figures and their difference. */
export function changesSheet(changes: readonly { readonly change: Change; readonly way: Way }[]): Sheet {
  const units = [...new Set(changes.map(({ change }) => unitOfChange(change)))];
  return {
    title: 'Differences',
    // Each unit has its columns: a column keeps one.
    columns: [
      { title: 'what', unit: '' },
      ...units.flatMap((unit) => [
        { title: 'before', unit },
        { title: 'now', unit },
        { title: 'difference', unit },
      ]),
      { title: 'way', unit: '' },
    ],
    rows: changes.map(({ change, way }) => {
      const [was, is] =
        change.kind === 'verdict'
          ? [change.before?.value ?? null, change.after?.value ?? null]
          : [change.before, change.after];
      const turn = change.kind === 'verdict' && change.turn !== 'same' ? change.turn : wayWords[way];
      return [
        changeTitle(change),
        ...units.flatMap((unit) =>
          unit === unitOfChange(change) ? [was, is, change.difference] : [null, null, null],
        ),
        turn,
      ];
    }),
  };
}

const unitOfChange = (change: Change): string =>
  change.kind === 'verdict' ? ((change.after ?? change.before)?.unit ?? '1') : change.unit;

/** All measures of a run, those of the run before beside them where there is one. */
export function measuresSheet(report: Report, before: Report | undefined): Sheet {
  const key = ({ name, of }: Measure) => `${name} ${of ?? ''}`;
  const earlier = new Map(before?.measures.map((measure) => [key(measure), measure.value]));
  return {
    title: 'Measures',
    columns: [
      { title: 'measure', unit: '' },
      { title: 'of', unit: '' },
      { title: 'value, SI', unit: '' },
      ...(before === undefined ? [] : [{ title: 'before, SI', unit: '' }]),
      { title: 'unit', unit: '' },
      { title: 'station', unit: 'm' },
    ],
    rows: report.measures.map((measure) => [
      measure.title,
      measure.of ?? '',
      measure.value,
      ...(before === undefined ? [] : [earlier.get(key(measure)) ?? null]),
      measure.unit,
      measure.moment?.station ?? null,
    ]),
  };
}
