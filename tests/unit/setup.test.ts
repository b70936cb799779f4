/** The set-up script as a process. Only its refusals: its successes would change this checkout. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const SETUP = fileURLToPath(new URL('../setup.mjs', import.meta.url));

function setUpBrowser(env: Record<string, string>) {
  return spawnSync(process.execPath, [SETUP, '--browser'], { env, encoding: 'utf8' });
}

describe('the set-up refuses, with one line that says what to do,', () => {
  it('a CHROMIUM that cannot be started, although another may be on the PATH', () => {
    const { status, stderr } = setUpBrowser({ PATH: process.env.PATH ?? '', CHROMIUM: '/nowhere/chromium' });
    expect(status).toBe(1);
    expect(stderr).toBe(
      'CHROMIUM is set to /nowhere/chromium, which is not a program that can be started: correct it or unset it.\n',
    );
  });

  // A Mac or Windows machine may have a browser in its usual place, which no environment can hide.
  it.runIf(process.platform === 'linux')(
    'a machine without a browser and without a way to install one',
    () => {
      const { status, stderr } = setUpBrowser({ PATH: '' });
      expect(status).toBe(1);
      expect(stderr).toBe(
        'The browser tests need Chromium: install it (Debian: sudo apt-get install chromium) or set CHROMIUM to its path.\n',
      );
    },
  );
});
