/** What the command says about itself, and how it gets on with pipes. */
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import { describe, expect, it } from 'vitest';
import { version } from '../../package.json';
import { axlewright, command, LAUNCHER } from './command.ts';
import { cart } from './fixture.ts';

const cwd = tmpdir();

describe('axlewright', () => {
  it('tells its version', async () => {
    expect(await axlewright(['--version'], { cwd })).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });

  it.each([[['--help']], [['help']]])('lists its verbs with examples and exit codes: %j', async (args) => {
    const { code, out, err } = await command(args, { cwd });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const part of ['check', 'stand', 'drive', 'demos', 'Examples:', 'Exit code:', '"45 mm"'])
      expect(out).toContain(part);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(120);
  });

  it('explains the options of a verb', async () => {
    const { code, out } = await command(['drive', '--help'], { cwd });
    expect(code).toBe(0);
    for (const part of ['--set', '--out', '--json', '--quiet', "'-'", 'Examples:'])
      expect(out).toContain(part);
  });

  it('prints its help and fails when nothing is asked of it', async () => {
    const { code, out, err } = await axlewright([], { cwd });
    expect(code).toBe(2);
    expect(out + err).toContain('Usage: axlewright');
  });

  it('lists the demos, and each can be checked by its name', async () => {
    const { code, out } = await command(['demos', '--json'], { cwd });
    expect(code).toBe(0);
    const demos = JSON.parse(out) as { name: string; title: string }[];
    expect(demos.map((demo) => demo.name)).toContain('corrie-6x6');
    for (const { name, title } of demos) {
      const checked = await command(['check', name], { cwd });
      expect(checked, name).toMatchObject({ code: 0, err: '' });
      expect(checked.out.startsWith(title), name).toBe(true);
    }
  });
});

describe.runIf(process.platform === 'linux')('a result that cannot be written', () => {
  it('is no result: the exit code says so', async () => {
    const child = spawn('sh', ['-c', `"${process.execPath}" "${LAUNCHER}" demos > /dev/full`], {
      cwd,
      stdio: 'pipe',
    });
    let heard = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      heard += text;
    });
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect(code).toBe(2);
    expect(heard).toContain('the result cannot be written');
  });
});

describe('a reader that goes away', () => {
  it('is no mistake: the exit code is that of the run, and nothing is said', async () => {
    const child = spawn(process.execPath, [LAUNCHER, 'drive', '-', '--json'], { cwd, stdio: 'pipe' });
    let heard = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      heard += text;
    });
    child.stdout.destroy();
    child.stdin.end(JSON.stringify(cart()));
    const code = await new Promise((resolve) => child.on('close', resolve));
    expect({ code, heard }).toEqual({ code: 0, heard: '' });
  });
});
