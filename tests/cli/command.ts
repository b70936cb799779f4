/** Ways to give a command: as a process, as a person would, or within this one, which is a hundred times faster. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { runCommand } from '../../sim/cli/program.ts';
import { openTerminal } from '../../sim/cli/terminal.ts';

export const LAUNCHER = fileURLToPath(new URL('../../sim/cli/axlewright.mjs', import.meta.url));

/** What a command left behind. */
export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** What to run it with. */
export interface Setting {
  readonly cwd: string;
  /** Text or bytes for standard input; nothing by default. */
  readonly stdin?: string | Uint8Array;
}

/** Runs `axlewright` as a process of its own, as a person would, and waits for its end. */
export function axlewright(args: readonly string[], { cwd, stdin = '' }: Setting): Promise<Ran> {
  const { NO_COLOR: _colour, FORCE_COLOR: _force, ...env } = process.env;
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [LAUNCHER, ...args], { cwd, env, stdio: 'pipe' });
    const heard = { out: '', err: '' };
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      heard.out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      heard.err += text;
    });
    // A command that refuses its arguments never reads its input.
    child.stdin.on('error', () => {});
    child.stdin.end(stdin);
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, ...heard }));
  });
}

const DEMOS = fileURLToPath(new URL('../../scenarios', import.meta.url));

/** Runs `axlewright` within this process, on streams of its own that are no terminals. */
export async function command(args: readonly string[], { cwd, stdin = '' }: Setting): Promise<Ran> {
  const heard = { out: '', err: '' };
  const outlet = (name: keyof typeof heard) => ({
    write(text: string) {
      heard[name] += text;
    },
  });
  async function* input(): AsyncGenerator<Uint8Array> {
    yield typeof stdin === 'string' ? Buffer.from(stdin) : stdin;
  }
  const terminal = openTerminal(outlet('out'), outlet('err'), {}, () => 0);
  const code = await runCommand(
    args,
    { version: '0.0.0' },
    { terminal, stdin: input(), cwd, demoFolder: DEMOS, now: () => 0 },
  );
  return { code, ...heard };
}
