import { csvParse } from 'd3-dsv';
import { describe, expect, it } from 'vitest';
import { cell, nineDigits } from '../../shared/csv.ts';
import { eventsCsv, recordingCsv } from '../../sim/cli/files/csv.ts';
import { unitOf } from '../../sim/frames/units.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { startOf, syntheticRecording } from './synthetic.ts';

/** Just enough of a mechanism to tell what turns from what moves. */
const mechanism = {
  members: [{ unit: 'rad' }, { unit: 'm' }],
  elements: [{ coordinate: { kind: 'joint', joint: 0 } }, { coordinate: { kind: 'span' } }],
  joints: [{ kind: 'hinge' }],
} as unknown as Mechanism;

const csvOf = (recording = syntheticRecording()): string =>
  [...recordingCsv(recording, (head) => unitOf(mechanism, head))].join('');

describe('a number in a CSV file', () => {
  it.each([
    [0, '0'],
    [-0, '0'],
    [0.1 + 0.2, '0.3'],
    [-1 / 3, '-0.333333333'],
    [123456789.123, '123456789'],
    [1e-12, '1e-12'],
  ])('%d is written %s', (value, text) => {
    expect(nineDigits(value)).toBe(text);
  });

  it.each([Number.NaN, Infinity, -Infinity])('%d is refused', (value) => {
    expect(() => nineDigits(value)).toThrow(RangeError);
  });
});

describe('a name in a CSV file', () => {
  it.each([
    ['=HYPERLINK("http://example.org","x")', '"\'=HYPERLINK(""http://example.org"",""x"")"'],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "'\t=1"],
    ['\n=1', '"\'\n=1"'],
    ['＝1', "'＝1"],
    ['rear-axle', 'rear-axle'],
    ['a=b', 'a=b'],
  ])('%j is written %s: no formula for a spreadsheet', (name, text) => {
    expect(cell(name)).toBe(text);
  });
});

describe('a recording as CSV', () => {
  it('has a unit in every head, that of the member itself for its travel, and quotes where a name needs it', () => {
    const [head = ''] = csvOf().split('\n');
    expect(head).toMatch(/^time \(s\),station \(m\),/);
    expect(head).toContain(',load[front] (N),"load[rear, twin] (N)",');
    expect(head).toContain('motion[beam] (rad),motion[guide] (m)');
    expect(head).toContain('elementEffort[bar] (N·m),elementEffort[spring] (N)');
  });

  it('has every value of every frame under its head, read by an independent parser', () => {
    const recording = syntheticRecording(5);
    const rows = csvParse(csvOf(recording));
    expect(rows).toHaveLength(5);
    expect(rows.columns).toHaveLength(recording.columns.length);
    expect(rows.map((row) => Number(row['load[rear, twin] (N)']))).toEqual(
      Array.from({ length: 5 }, (_, f) => recording.block[startOf(recording, 'load', 'rear, twin') + f]),
    );
  });

  it('goes on over pieces without losing or doubling a frame', () => {
    const rows = csvParse(csvOf(syntheticRecording(4500)));
    expect(rows.every((row, f) => Number(row['time (s)']) === f)).toBe(true);
    expect(rows).toHaveLength(4500);
  });

  it('refuses a value that is not a finite number, and says which', () => {
    const recording = syntheticRecording();
    recording.block[startOf(recording, 'travel', 'front') + 2] = Number.NaN;
    expect(() => csvOf(recording)).toThrow('travel[front] (m) in frame 2 is not a finite number');
  });
});

describe('events as CSV', () => {
  it('leave empty what an event of their kind does not have', () => {
    const place = { time: 1.25, station: 0.5 };
    const text = eventsCsv([
      { kind: 'lift-off', wheel: 'rear, twin', wheelStation: 0.2, ...place },
      { kind: 'touch-down', wheel: 'front', wheelStation: 0.3, duration: 0.05, height: 0.004, ...place },
      { kind: 'stop-hit', member: 'beam', side: 'droop', ...place },
      { kind: 'stuck', cause: 'all wheels slip, uphill', ...place },
      { kind: 'snap', of: 'rocker', ...place },
      { kind: 'body-touch', ...place },
      { kind: 'stall', part: 'motor', ...place },
      { kind: 'skip', part: 'final', torque: 3, rating: 2.5, ...place },
    ]);
    expect(text).toBe(
      [
        'time (s),station (m),kind,of,wheelStation (m),duration (s),height (m),torque (N·m),rating (N·m),says',
        '1.25,0.5,lift-off,"rear, twin",0.2,,,,,',
        '1.25,0.5,touch-down,front,0.3,0.05,0.004,,,',
        '1.25,0.5,stop-hit,beam,,,,,,droop',
        '1.25,0.5,stuck,,,,,,,"all wheels slip, uphill"',
        '1.25,0.5,snap,rocker,,,,,,',
        '1.25,0.5,body-touch,,,,,,,',
        '1.25,0.5,stall,motor,,,,,,',
        '1.25,0.5,skip,final,,,,3,2.5,',
        '',
      ].join('\n'),
    );
  });
});
