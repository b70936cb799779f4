/** How the tests start Chromium: the one that `tests/setup.mjs --browser` found. */
import { existsSync, readFileSync } from 'node:fs';

const PATH_FILE = new URL('../node_modules/.cache/axlewright/chromium-path', import.meta.url);

/**
 * Launch options for Playwright.
 * @returns the program to start, left out when the set-up has not run yet (Playwright then says what it misses),
 *   and the arguments: as root, as in most containers, Chromium refuses to start inside its own sandbox
 */
export function chromiumLaunchOptions(): { executablePath?: string; args: string[] } {
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  if (!existsSync(PATH_FILE)) return { args };
  return { executablePath: readFileSync(PATH_FILE, 'utf8').trim(), args };
}
