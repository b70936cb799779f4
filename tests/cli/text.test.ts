import { describe, expect, it } from 'vitest';
import { clean, widthOf } from '../../sim/cli/text/clean.ts';
import { column, count, figure } from '../../sim/cli/text/figures.ts';
import { problemText } from '../../sim/cli/text/problems.ts';
import { endSentence, quietText, reportText } from '../../sim/cli/text/report.ts';
import { coloured, plain, styleFor } from '../../sim/cli/text/style.ts';
import { table, wrap } from '../../sim/cli/text/table.ts';
import { syntheticReport } from './synthetic.ts';

const ESC = '\u001b';

describe('text for a terminal', () => {
  it('shows what could steer the terminal instead of sending it', () => {
    expect(clean(`truck${ESC}[2J${ESC}]0;x\u0007\u202e\n\tend`)).toBe('truck�[2J�]0;x�� end');
  });

  it('keeps letters of every script', () => {
    expect(clean('Grüner Kipper № 6×6 — 卡车')).toBe('Grüner Kipper № 6×6 — 卡车');
  });

  it('is measured in columns: wide characters take two, combining marks none', () => {
    expect([widthOf('abc'), widthOf('卡车'), widthOf('e\u0301')]).toEqual([3, 4, 1]);
  });
});

describe('a table', () => {
  const columns = [
    { head: 'wheel', align: 'left' },
    { head: 'load', align: 'right' },
  ] as const;

  it('lines its columns up, numbers on the right', () => {
    expect(
      table(columns, [
        ['front', '9.8 N'],
        ['a longer name', '120 N'],
      ]),
    ).toEqual(['wheel           load', 'front          9.8 N', 'a longer name  120 N']);
  });

  it('has no spaces at the ends of lines', () => {
    expect(
      table(
        [columns[1], columns[0]],
        [
          ['1', ''],
          ['22', 'x'],
        ],
      ),
    ).toEqual(['load  wheel', '   1', '  22  x']);
  });
});

describe('wrapping', () => {
  it('keeps a figure with its unit', () => {
    expect(wrap('off for 120 ms, 3 wheels', 11)).toEqual(['off for', '120 ms,', '3 wheels']);
  });

  it('breaks at spaces and leaves long words whole', () => {
    expect(wrap('one two three extraordinarily four', 9)).toEqual([
      'one two',
      'three',
      'extraordinarily',
      'four',
    ]);
  });
});

describe('figures for people', () => {
  it.each([
    [0.0402, 'm', '40.2 mm'],
    [-0.04, 'm', '−40 mm'],
    [90_000, 'kg', '90 t'],
    [Math.PI / 6, 'rad', '30°'],
    [0.345, '1', '34.5 %'],
    [3.2, 'm/s²', '3.2 m/s²'],
    [0.123456, 'm/s³', '0.123 m/s³'],
  ])('%d %s is %s', (value, unit, shown) => {
    expect(figure(value, unit)).toBe(shown);
  });

  it.each([
    [[19.6, 9.8, 0], 'N', ['19.6 N', '9.8 N', '0.0 N']],
    [[500, 20_000], 'N', ['0.5 kN', '20.0 kN']],
    [[-0.0012, 0.0311, -1e-9], 'm', ['−1.2 mm', '31.1 mm', '0.0 mm']],
    [[0, 0.034, 1.4], '1', ['0 %', '3 %', '140 %']],
    [[0, 0.034], '1', ['0.0 %', '3.4 %']],
    [[Math.PI / 6], 'rad', ['30.0°']],
    [[0, 0], 'm', ['0.00 mm', '0.00 mm']],
    [[2], 'm/s³', ['2.00 m/s³']],
  ])('of one column share unit and decimals: %j %s', (values, unit, shown) => {
    expect(column(values, unit)).toEqual(shown);
  });

  it('agree with their noun', () => {
    expect([count(1, 'wheel'), count(2, 'wheel'), count(0, 'criterion', 'criteria')]).toEqual([
      '1 wheel',
      '2 wheels',
      '0 criteria',
    ]);
  });
});

describe('colour', () => {
  it('is set only on a terminal that wants it', () => {
    expect(styleFor({ isTTY: true }, {})).toBe(coloured);
    expect(styleFor({ isTTY: true }, { NO_COLOR: '' })).toBe(coloured);
    expect(styleFor({ isTTY: true }, { NO_COLOR: '1' })).toBe(plain);
    expect(styleFor({ isTTY: true }, { TERM: 'dumb' })).toBe(plain);
    expect(styleFor({}, {})).toBe(plain);
  });

  it('never says anything that the words do not say', () => {
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the sequences begin with the escape character
    const bare = reportText(syntheticReport, coloured, 100).replace(/\u001b\[\d+m/g, '');
    expect(bare).toBe(reportText(syntheticReport, plain, 100));
  });
});

describe('a report for people', () => {
  const text = reportText(syntheticReport, plain, 100);

  it('reads as title, wheels, measures, verdicts, end', () => {
    expect(text).toBe(
      [
        'Made-up truck over a step',
        'Made-up 4x4: 6 kg, centre of gravity at x 212 mm, z 90 mm of the drawing',
        '',
        'wheel       axle  wheels  standing  per wheel     rise   least  share  greatest  share  time off',
        'front          1       2    19.6 N     9.80 N  3.10 mm  12.3 N   63 %    27.4 N  140 %     0.0 %',
        'rear, twin     2       4    39.2 N     9.80 N  5.20 mm   0.0 N    0 %    80.0 N  204 %     3.4 %',
        '',
        'travel of    bump  used   droop  used',
        'front beam  12 mm  75 %  5.5 mm     –',
        '',
        'measure           value  of          vehicle',
        'Least load share    0 %  rear, twin  at 412 mm, 800 ms',
        '',
        'FAIL  Every wheel keeps at least 20 % of its standing load',
        '      The rear wheel falls to 0 % at station 412 mm.',
        'PASS  The vehicle reaches the end',
        '      It arrives after 1.5 s.',
        '',
        'Events: lift off 1×, grip limit 2×.',
        'Arrived at station 750 mm after 1.5 s.',
        '1 of 2 criteria failed.',
        '',
      ].join('\n'),
    );
  });

  it('keeps its sentences within the width', () => {
    const narrow = reportText({ ...syntheticReport, wheels: [], measures: [] }, plain, 40)
      .split('\n')
      .slice(2);
    expect(Math.max(...narrow.map(widthOf))).toBeLessThanOrEqual(40);
  });

  it('leaves only what failed when it has to be quiet', () => {
    expect(quietText(syntheticReport)).toBe(
      'FAIL  Every wheel keeps at least 20 % of its standing load: The rear wheel falls to 0 % at station 412 mm.\n',
    );
    expect(quietText({ ...syntheticReport, verdicts: [] })).toBe('');
  });

  it('names the cause when a run could not be finished', () => {
    const end = {
      kind: 'diverged',
      time: 2,
      station: 0.4,
      quantity: 'speed',
      body: 'front beam',
      cause: 'the substep is too long',
    } as const;
    expect(endSentence(end)).toBe(
      'The run could not be finished: speed of front beam ran away at station 400 mm after 2 s. Likely cause: the substep is too long.',
    );
    expect(quietText({ ...syntheticReport, verdicts: [], end })).toContain('front beam');
  });
});

describe('problems', () => {
  const problem = {
    path: 'vehicle.wheels[2].radius',
    message: 'is -1 m, must be above 0 m',
    severity: 'error',
  } as const;

  it('are one line each, errors first, with a head that counts them', () => {
    expect(
      problemText('truck.json', [
        { path: '', message: 'is old', severity: 'warning' },
        { ...problem, hint: 'measure it' },
      ]),
    ).toBe(
      'truck.json: 1 problem and 1 warning\n  vehicle.wheels[2].radius: is -1 m, must be above 0 m (measure it)\n  warning: is old\n',
    );
  });

  it('are counted where there are too many to read', () => {
    const lines = problemText(
      'x',
      Array.from({ length: 1000 }, () => problem),
    ).split('\n');
    expect(lines).toHaveLength(43);
    expect(lines[41]).toBe('  … and 960 more; --json lists them all');
  });
});
