/**
 * Remakes the picture of the app in the README (`npm run screenshot`): builds the app, opens it, goes to the worst
 * moment of the flagship's run, and writes tests/pictures/app.png.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';
import { preview } from 'vite';
import { ensureChromium } from './setup.mjs';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const OUT = fileURLToPath(new URL('../node_modules/.cache/axlewright/screenshot', import.meta.url));
const PICTURE = fileURLToPath(new URL('./pictures/app.png', import.meta.url));

ensureChromium();
const executablePath = readFileSync(
  new URL('../node_modules/.cache/axlewright/chromium-path', import.meta.url),
  'utf8',
).trim();

execFileSync(
  process.execPath,
  ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn', '--emptyOutDir', '--outDir', OUT],
  {
    cwd: ROOT,
    stdio: 'inherit',
  },
);
const server = await preview({
  root: ROOT,
  logLevel: 'warn',
  build: { outDir: OUT },
  preview: { port: 0, host: '127.0.0.1', open: false },
});
const browser = await chromium.launch({
  executablePath,
  args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
});
try {
  const page = await browser.newPage({
    viewport: { width: 1440, height: 900 },
    deviceScaleFactor: 2,
    colorScheme: 'light',
  });
  await page.goto(`${server.resolvedUrls?.local[0]}?renderer=canvas`);
  await page.locator('.verdicts[data-stale="false"] .verdict.fails').first().click();
  await page.mouse.move(720, 20);
  await page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
  await page.evaluate(() => document.fonts.ready);
  await page.waitForTimeout(500);
  mkdirSync(new URL('./pictures/', import.meta.url), { recursive: true });
  await page.screenshot({ path: PICTURE });
  process.stdout.write(`Wrote ${PICTURE}\n`);
} finally {
  await browser.close();
  await server.close();
}
