/** What the tests of the built app share: one browser per file, pages that watch for errors, and the app's address. */
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright';
import { afterAll, beforeAll, inject } from 'vitest';
import { chromiumLaunchOptions } from '../chromium.ts';

/** What a page said that it must not say: errors of scripts, of the console, of requests. */
export interface Watched {
  readonly page: Page;
  readonly complaints: readonly string[];
}

/** Chromium's own remarks on reading a software picture back, which no page can help. */
const notOurs = /GPU stall due to ReadPixels/;

function watch(page: Page): Watched {
  const complaints: string[] = [];
  page.on('pageerror', ({ message }) => complaints.push(`error: ${message}`));
  page.on('requestfailed', (request) => complaints.push(`request failed: ${request.url()}`));
  page.on('console', (message) => {
    const serious = message.type() === 'error' || message.type() === 'warning';
    if (serious && !notOurs.test(message.text())) complaints.push(`${message.type()}: ${message.text()}`);
  });
  return { page, complaints };
}

interface OpenOptions extends BrowserContextOptions {
  readonly path?: string;
  /** Done in every page before any script of its own. */
  readonly before?: () => void;
}

/** Opens the app in a fresh profile and waits until the flagship is solved, unless `path` asks for something else. */
export function appOpener(): (options?: OpenOptions) => Promise<Watched> {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch(chromiumLaunchOptions());
  });
  afterAll(() => browser.close());
  return async ({ path = '', before, ...options } = {}) => {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
    const watched = watch(await context.newPage());
    // Files are chosen through the page's own input, which tests can fill; a system dialog they can't.
    await context.addInitScript(() => {
      Object.assign(window, { showOpenFilePicker: undefined, showSaveFilePicker: undefined });
    });
    if (before !== undefined) await context.addInitScript(before);
    await watched.page.goto(inject('appAddress') + path);
    await solved(watched.page);
    return watched;
  };
}

/** Waits until the run on show is that of the document as it stands. */
export async function solved(page: Page): Promise<void> {
  await page.locator('.run-status[data-phase="idle"]').waitFor();
  await page.locator('.verdicts[data-stale="false"] .verdict').first().waitFor();
}

/** Figure shown in the readout under this name: 'time', 'station', 'frame'. */
export async function readout(page: Page, name: string): Promise<number> {
  const text = await page.locator('.readout div', { hasText: name }).locator('b').textContent();
  return Number(text?.replace('−', '-'));
}

/** Drops a file onto the window, as a file manager does. */
export async function dropFile(page: Page, name: string, text: string): Promise<void> {
  const data = await page.evaluateHandle(
    ([fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], fileName, { type: 'application/json' }));
      return transfer;
    },
    [name, text] as const,
  );
  await page.dispatchEvent('.app', 'dragover', { dataTransfer: data });
  await page.dispatchEvent('.app', 'drop', { dataTransfer: data });
}
