import { readFileSync } from 'node:fs';
import { csvParse } from 'd3-dsv';
import { describe, expect, it } from 'vitest';
import { column, hasChannel, poseAt } from '../../../shared/recording.ts';
import { ownFigures } from '../../../shared/units.ts';
import { appraise, compile, crawl, layGround, loadScenario } from '../../../sim/index.ts';
import { compareReports } from '../../../sim/report/changes.ts';
import { tracksOf } from '../../../src/charts/tracks.ts';
import { wayOf } from '../../../src/panels/judge.ts';
import { ledgerCsv } from '../../../src/panels/ledger/table.ts';
import { factsOf, factWords, spoken } from '../../../src/reading/facts.ts';
import { lineStrips, offersFor, offersOf, toggled } from '../../../src/reading/lines.ts';
import { csvOf, headsOf, type Sheet, tabbedOf, thinned } from '../../../src/reading/sheet.ts';
import {
  bandsSheet,
  changesSheet,
  linesSheet,
  measuresSheet,
  stripsSheet,
} from '../../../src/reading/sheets.ts';
import { boxOf, distanceTo, thingsAt, thingsOf } from '../../../src/reading/things.ts';
import { linesAfter } from '../../../src/reading/useLines.ts';
import type { Solved } from '../../../src/solved.ts';

function solvedOf(name: string, change: (text: string) => string = (text) => text): Solved {
  const text = readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8');
  const read = loadScenario(change(text));
  if (!read.ok) throw new Error(name);
  const recording = crawl(read.value);
  return {
    mechanism: compile(read.value),
    ground: layGround(read.value),
    recording,
    report: appraise(read.value, recording),
  };
}

const corrie = solvedOf('corrie-6x6');
const posesIn = ({ recording, mechanism }: Solved, frame: number) =>
  mechanism.bodies.map((_, b) => poseAt(recording, b, frame));
const tracks = tracksOf(corrie.recording, [1, 2, 3]);

describe('the things of a picture', () => {
  it('are all wheels, members with figures, rods, springs, bars, dampers and pins, each once', () => {
    const things = thingsOf(corrie.mechanism);
    const count = (kind: string) => things.filter((each) => each.kind === kind).length;
    expect(count('wheel')).toBe(3);
    expect(count('rod')).toBe(corrie.mechanism.rods.length);
    expect(count('pin')).toBe(corrie.recording.joints.length);
    expect(count('element')).toBe(corrie.mechanism.elements.filter((e) => e.stopOf === undefined).length);
    expect(new Set(things.map(({ kind, name }) => `${kind} ${name}`)).size).toBe(things.length);
  });

  it('name pins in the order of the recorded columns', () => {
    for (const { kind, index, name } of thingsOf(corrie.mechanism))
      if (kind === 'pin') expect(corrie.recording.joints[index]).toBe(name);
  });

  it.each(['corrie-6x6', 'tarn-8x8', 'fell-4x4', 'scree-6', 'drumlin-6x6-full'])(
    'have figures on %s, all finite, and each line is a recorded column',
    (name) => {
      const solved = solvedOf(name);
      const lines = new Set(offersOf(solved.mechanism, solved.recording).map(({ line }) => line));
      for (const thing of thingsOf(solved.mechanism)) {
        const facts = factsOf(solved, thing, Math.floor(solved.recording.frames / 2));
        expect(facts.length, thing.name).toBeGreaterThan(0);
        for (const { line, title } of facts)
          if (line !== undefined) expect(lines.has(line), `${title}: ${line}`).toBe(true);
        expect(spoken(thing, facts, ownFigures)).not.toMatch(/NaN|undefined|–/);
      }
    },
  );

  it('are found where they are: a hub belongs to its wheel, a place far off to nothing', () => {
    const poses = posesIn(corrie, 100);
    const things = thingsOf(corrie.mechanism);
    const rear = things.find(({ kind, name }) => kind === 'wheel' && name === 'rear');
    const box = rear && boxOf(rear, poses);
    if (rear === undefined || box === undefined) throw new Error('no rear wheel');
    const rim = { x: (box.xMin + box.xMax) / 2, z: box.zMin + 0.003 };
    expect(thingsAt(things, poses, rim, 0.001).map(({ name }) => name)).toEqual(['rear']);
    expect(distanceTo(rear, poses, rim)).toBe(0);
    // A finger reaches further than the hub is away, and still means the wheel that it is on.
    expect(thingsAt(things, poses, rim, 0.06).map(({ name }) => name)).toEqual(['rear']);
    expect(thingsAt(things, poses, { x: -5, z: 1 }, 0.01)).toEqual([]);
  });

  it('are reached for by a finger beside a wheel, the nearest first', () => {
    const poses = posesIn(corrie, 100);
    const things = thingsOf(corrie.mechanism);
    const box = things[0] && boxOf(things[0], poses);
    if (box === undefined) throw new Error('no wheel');
    const beside = { x: box.xMax + 0.02, z: (box.zMin + box.zMax) / 2 };
    expect(thingsAt(things, poses, beside, 0.001)).toEqual([]);
    expect(thingsAt(things, poses, beside, 0.04)[0]?.name).toBe('front');
  });
});

describe('the figures of a thing', () => {
  const frame = 200;
  const thing = (name: string, kind: string) => {
    const found = thingsOf(corrie.mechanism).find((each) => each.name === name && each.kind === kind);
    if (found === undefined) throw new Error(name);
    return found;
  };
  const fact = (name: string, kind: string, title: string) =>
    factsOf(corrie, thing(name, kind), frame).find((each) => each.title.startsWith(title));

  it('are those of the recording: load and share of a wheel', () => {
    const load = column(corrie.recording, 'load', 2)[frame];
    expect(fact('rear', 'wheel', 'load')?.value).toBe(load);
    expect(fact('rear', 'wheel', 'of its standing')?.value).toBe(
      (load ?? 0) / (corrie.recording.standing.loads[2] ?? 1),
    );
  });

  it('give a pin the sum of its parts, and an arm what is left to its stops', () => {
    expect(hasChannel(corrie.recording, 'pinX')).toBe(true);
    const pin = thingsOf(corrie.mechanism).find(({ kind }) => kind === 'pin');
    const facts = pin === undefined ? [] : factsOf(corrie, pin, frame);
    const [force, x, z] = facts.map(({ value }) => value ?? Number.NaN);
    expect(force).toBeCloseTo(Math.sqrt((x as number) ** 2 + (z as number) ** 2), 12);
    const arm = corrie.recording.members.indexOf('rear-arm');
    const left = fact('rear-arm', 'member', 'left to its bump')?.value;
    const motion = column(corrie.recording, 'motion', arm)[frame] ?? 0;
    expect(left).toBe((corrie.mechanism.members[arm]?.bump ?? 0) - motion);
  });

  it('give the stress of a bar as the report of joints has it at its worst', () => {
    const worst = corrie.report.joints?.find((row) => row.quantity === 'stress');
    if (worst === undefined) throw new Error('no stress');
    const facts = factsOf(corrie, thing(worst.of, 'element'), worst.moment.frame);
    expect(facts.find(({ title }) => title.includes('stress'))?.value).toBeCloseTo(worst.value, 3);
  });

  it('are told in the units of choice', () => {
    const load = fact('front', 'wheel', 'load');
    if (load === undefined) throw new Error('no load');
    expect(factWords(load, { system: 'inch', scale: 1 })).toMatch(/ lbf$/);
    expect(factWords(load, ownFigures)).toMatch(/ N$/);
  });
});

describe('lines', () => {
  const lines = ['gripUse:rear', 'gripUse:front', 'bending:rear-arm', 'gone:nothing'];

  it('of one quantity share a strip, and what a run does not have is left out', () => {
    const strips = lineStrips(corrie, null, lines, ownFigures);
    expect(strips.map(({ title, curves }) => [title, curves.length])).toEqual([
      ['Grip use', 2],
      ['Bending moment', 1],
    ]);
    expect(strips[0]?.shown.unit).toBe('%');
  });

  it('have the run before beside them', () => {
    const other = solvedOf('corrie-6x6', (text) => text.replace('"-330 mm"', '"-326 mm"'));
    const [strip] = lineStrips(other, corrie, ['travel:rear'], ownFigures);
    const was = strip?.curves[0]?.before?.values;
    expect(was).toEqual(column(corrie.recording, 'travel', 2));
  });

  it('are found by words in any order', () => {
    const offers = offersOf(corrie.mechanism, corrie.recording);
    expect(offersFor(offers, 'rear grip').map(({ line }) => line)).toEqual(['gripUse:rear']);
    expect(offersFor(offers, '')).toHaveLength(offers.length);
    expect(offers.length).toBeGreaterThan(80);
  });

  it('are added and taken away, for one vehicle at a time', () => {
    expect(toggled(['a'], 'b')).toEqual(['a', 'b']);
    expect(toggled(['a', 'b'], 'a')).toEqual(['b']);
    expect(linesAfter({ one: ['a'], two: ['b'] }, 'two', 'b')).toEqual({ one: ['a'] });
    const many = Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`v${i}`, ['a']]));
    const after = linesAfter(many, 'new', 'a');
    expect(Object.keys(after)).toHaveLength(40);
    expect(after.new).toEqual(['a']);
  });
});

describe('tables', () => {
  const sheet: Sheet = {
    title: 'test',
    columns: [
      { title: 'name', unit: '' },
      { title: 'load, front', unit: 'N' },
      { title: 'travel', unit: 'm' },
    ],
    rows: [
      ['=HYPERLINK("x")', 12.5, 0.0123],
      ['a, "b"', null, Number.NaN],
      ['+1', 4, -0.5],
    ],
  };

  it('are read back by another library as they were written, in SI', () => {
    const rows = csvParse(csvOf(sheet, 'si'));
    expect(rows.columns).toEqual(['name', 'load, front (N)', 'travel (m)']);
    expect(rows[1]).toEqual({ name: 'a, "b"', 'load, front (N)': '', 'travel (m)': '' });
    expect(Number(rows[0]?.['travel (m)'])).toBe(0.0123);
  });

  it('hold no name that a spreadsheet would take for a formula', () => {
    const names = csvParse(csvOf(sheet, 'si')).map(({ name }) => name);
    expect(names.filter((name) => /^[=+\-@]/.test(name ?? ''))).toEqual([]);
    expect(
      tabbedOf(sheet, 'si')
        .split('\n')
        .slice(1)
        .filter((row) => /^[=+\-@]/.test(row)),
    ).toEqual([]);
  });

  it('have heads and figures in the units of choice', () => {
    expect(headsOf(sheet, ownFigures).map(({ text }) => text)).toEqual([
      'name',
      'load, front (N)',
      'travel (mm)',
    ]);
    const inch = csvParse(csvOf(sheet, { system: 'inch', scale: 1 }));
    expect(Number(inch[2]?.['travel (in)'])).toBeCloseTo(-0.5 / 0.0254, 6);
  });

  it('of bands and strips have a row per frame and nothing that is not finite', () => {
    for (const made of [bandsSheet(tracks), stripsSheet(tracks)]) {
      expect(made.rows).toHaveLength(corrie.recording.frames);
      for (const row of made.rows) {
        expect(row).toHaveLength(made.columns.length);
        for (const value of row) if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      }
    }
    expect(stripsSheet(tracks).rows[200]?.[4]).toBe(column(corrie.recording, 'load', 2)[200]);
    const strips = lineStrips(corrie, null, ['gripUse:rear'], ownFigures);
    expect(linesSheet(tracks, strips).rows[200]?.[2]).toBe(column(corrie.recording, 'gripUse', 2)[200]);
  });

  it('of differences name both figures and the way', () => {
    const other = solvedOf('corrie-6x6', (text) => text.replace('"-330 mm"', '"-326 mm"'));
    const changes = compareReports(corrie.report, other.report).map((change) => ({
      change,
      way: wayOf(change),
    }));
    const made = changesSheet(changes);
    expect(made.rows).toHaveLength(changes.length);
    expect(changes.length).toBeGreaterThan(5);
    const shares = made.columns.findIndex(({ title, unit }) => title === 'before' && unit === '1');
    const row = made.rows.find((each) => typeof each[shares] === 'number') ?? [];
    expect((row[shares + 1] as number) - (row[shares] as number)).toBeCloseTo(row[shares + 2] as number, 12);
    expect(measuresSheet(other.report, corrie.report).columns.map(({ title }) => title)).toContain(
      'before, SI',
    );
  });

  it('are thinned for a page with their first and last row', () => {
    const rows = Array.from({ length: 1000 }, (_, i) => [i]);
    const few = thinned({ title: '', columns: [{ title: 'n', unit: '1' }], rows }, 200);
    expect([few.length, few[0]?.[0], few.at(-1)?.[0]]).toEqual([200, 0, 999]);
  });
});

it('the ledger as CSV holds no name that a spreadsheet would take for a formula, and leaves figures as they are', () => {
  const line = {
    sort: 'rod',
    of: '=cmd|x',
    quantity: '-torque',
    use: 0.5,
    carries: -2,
    limit: 4,
    unit: 'N',
    says: '',
  };
  const [row] = csvParse(ledgerCsv([line as never]));
  expect(row?.of).toBe("'=cmd|x");
  expect(row?.quantity).toBe("'-torque");
  expect(row?.carries).toBe('-2');
});
