import { brotliCompressSync, gzipSync } from 'node:zlib';
import { describe, expect, inject, it } from 'vitest';
import { appOpener, readout } from './browser.ts';

const open = appOpener();

describe('the app opens', () => {
  it('on the flagship, already solved, with a verdict for each of its criteria, ready to play', async () => {
    const { page, complaints } = await open();
    expect(await page.locator('h1').textContent()).toContain('Corrie 6×6');
    expect(await page.locator('.verdict').count()).toBe(5);
    expect(await page.locator('.verdict.fails').count()).toBeGreaterThan(0);
    expect(await page.getByRole('button', { name: 'Play' }).isEnabled()).toBe(true);
    expect(await readout(page, 'frame')).toBe(1);
    expect(await page.locator('.picture canvas').count()).toBe(1);
    expect(await page.getByRole('status').textContent()).toMatch(/\d of 5 verdicts hold/);
    expect(complaints).toEqual([]);
  });

  it('with the engine in the worker only: no script of the window has planck in it', async () => {
    const { page } = await open();
    const scripts = await page.evaluate(() =>
      performance
        .getEntriesByType('resource')
        .map(({ name }) => name)
        .filter((name) => name.endsWith('.js')),
    );
    const texts = await Promise.all(
      scripts.map(async (url) => [url, await (await fetch(url)).text()] as const),
    );
    const withEngine = texts.filter(([, text]) => text.includes('linearSlop')).map(([url]) => url);
    // The worker's own script is not among the window's resources in every browser version.
    expect(withEngine.every((url) => url.includes('worker'))).toBe(true);
    expect(texts.length).toBeGreaterThan(5);
  });

  it.each(['canvas', 'webgl'])('under 300 kB of compressed script, drawing with %s', async (renderer) => {
    const { page } = await open({ path: `?renderer=${renderer}` });
    await page.locator(`[data-renderer="${renderer}"]`).waitFor();
    await page.waitForLoadState('networkidle');
    // What keeps documents is loaded once the first answer is drawn, and is no part of the first view.
    const scripts = await page.evaluate(() => {
      const [shown] = performance.getEntriesByName('first answer');
      return performance
        .getEntriesByType('resource')
        .filter(({ startTime }) => shown === undefined || startTime < shown.startTime)
        .map(({ name }) => name)
        .filter((name) => name.endsWith('.js') && !name.includes('worker'));
    });
    const bodies = await Promise.all(
      [...new Set(scripts)].map(async (url) => Buffer.from(await (await fetch(url)).arrayBuffer())),
    );
    const sum = (size: (body: Buffer) => number) => bodies.reduce((total, body) => total + size(body), 0);
    const brotli = sum((body) => brotliCompressSync(body).length);
    const gzip = sum((body) => gzipSync(body, { level: 9 }).length);
    const kB = (bytes: number) => `${(bytes / 1000).toFixed(0)} kB`;
    process.stdout.write(
      `Script of the first view with ${renderer}: ${kB(brotli)} by brotli, ${kB(gzip)} by gzip, ${kB(sum((body) => body.length))} plain\n`,
    );
    expect(brotli).toBeGreaterThan(100_000);
    // the stricter of the two usual ways to compress
    expect(gzip).toBeLessThan(300_000);
  });

  it('and says how long it took to its first answer', async () => {
    const { page } = await open({ path: '?renderer=canvas' });
    // Not held against a limit: a test must not fail because the machine is busy.
    const took = await page.evaluate(() => performance.now());
    process.stdout.write(
      `First answer within ${took.toFixed(0)} ms of navigation at ${inject('appAddress')}\n`,
    );
    expect(took).toBeGreaterThan(0);
  });
});
