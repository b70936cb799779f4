import { describe, expect, it } from 'vitest';
import { exitOf } from '../../sim/cli/exit.ts';
import { reportJson, unreadableReport } from '../../sim/cli/report-json.ts';
import { restlessness } from '../../sim/cli/restless.ts';
import { openTerminal } from '../../sim/cli/terminal.ts';
import { plain } from '../../sim/cli/text/style.ts';
import { syntheticRecording, syntheticReport } from './synthetic.ts';

/** A stream that keeps what it is given. */
function outlet(isTTY: boolean) {
  const written: string[] = [];
  return { isTTY, columns: 500, written, write: (text: string) => written.push(text) };
}

describe('progress', () => {
  it('is shown on a terminal, at most ten times a second, and taken away before anything else is said', () => {
    const error = outlet(true);
    let time = 0;
    const terminal = openTerminal(outlet(false), error, {}, () => time);
    for (const [at, text] of [
      [0, 'a'],
      [50, 'b'],
      [120, 'c'],
    ] as const) {
      time = at;
      terminal.progress(text);
    }
    terminal.remark('done\n');
    terminal.progress();
    expect(error.written).toEqual(['\r\u001b[Ka', '\r\u001b[Kc', '\r\u001b[K', 'done\n']);
  });

  it('is not shown anywhere else', () => {
    const error = outlet(false);
    const terminal = openTerminal(outlet(true), error, {}, () => 0);
    terminal.progress('a');
    terminal.progress();
    expect(error.written).toEqual([]);
  });
});

describe('the width of lines', () => {
  it('follows the terminal as far as lines are pleasant to read, and is fixed elsewhere', () => {
    expect(openTerminal(outlet(true), outlet(true), {}, () => 0).width).toBe(120);
    expect(openTerminal(outlet(false), outlet(true), {}, () => 0).width).toBe(100);
    expect(openTerminal({ ...outlet(true), columns: 10 }, outlet(true), {}, () => 0).width).toBe(40);
    expect(openTerminal(outlet(false), outlet(true), {}, () => 0).style).toBe(plain);
  });
});

describe('the exit code', () => {
  const passed = { ...syntheticReport, verdicts: [], pass: true };
  const place = { time: 1, station: 0.5 };
  it('is 0 when everything held and 1 when a criterion failed', () => {
    expect(exitOf(passed)).toBe(0);
    expect(exitOf(syntheticReport)).toBe(1);
  });

  it('is 0 for a run whose time was up when nothing asked for more', () => {
    expect(exitOf({ ...passed, end: { kind: 'time-up', ...place } })).toBe(0);
  });

  it('is 1 for a vehicle that got stuck or tipped over, also when no criterion asks', () => {
    expect(exitOf({ ...passed, end: { kind: 'stuck', cause: 'grip', ...place } })).toBe(1);
    expect(exitOf({ ...passed, end: { kind: 'tipped', ...place } })).toBe(1);
  });

  it('is 2 for a run that ran away, whatever the criteria say', () => {
    const end = { kind: 'diverged', quantity: 'speed', body: 'beam', cause: 'substep', ...place } as const;
    expect(exitOf({ ...passed, end })).toBe(2);
    expect(exitOf({ ...syntheticReport, end })).toBe(2);
  });
});

describe('a vehicle that does not come to rest', () => {
  const { standing } = syntheticRecording();

  it('is a problem when its unbalanced force is past what the loads are promised to', () => {
    expect(restlessness(standing, 'error')).toEqual([]);
    expect(restlessness({ ...standing, residual: 0.002 }, 'error')).toMatchObject([
      { path: 'vehicle', severity: 'error' },
    ]);
    expect(restlessness({ ...standing, residual: Number.NaN }, 'warning')).toMatchObject([
      { severity: 'warning' },
    ]);
    expect(restlessness({ ...standing, loads: [Number.NaN] }, 'error')).toHaveLength(1);
  });
});

describe('a report as JSON', () => {
  it('can be read back', () => {
    expect(JSON.parse(reportJson(syntheticReport))).toEqual(syntheticReport);
  });

  it('is refused rather than written with a null where a number was not finite', () => {
    const [wheel] = syntheticReport.wheels;
    const broken = {
      ...syntheticReport,
      wheels: wheel === undefined ? [] : [{ ...wheel, load: Number.NaN }],
    };
    expect(() => reportJson(broken)).toThrow('wheels.0.load of the report is not a finite number');
  });

  it('has its lists also when the document could not be read', () => {
    const problems = [{ path: '', message: 'is empty', severity: 'error' }] as const;
    expect(unreadableReport('drive', problems)).toMatchObject({
      wheels: [],
      verdicts: [],
      events: [],
      measures: [],
      pass: false,
      problems,
    });
  });
});
