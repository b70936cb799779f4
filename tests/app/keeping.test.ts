/** Nothing is ever lost: reloads, two tabs, a browser that is full, or denies, or has newer data. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright';
import { describe, expect, inject, it } from 'vitest';
import { chromiumLaunchOptions } from '../chromium.ts';
import { violations } from './axe.ts';
import { appOpener, dropFile, solved } from './browser.ts';
import { shippedText } from './documents.ts';

const open = appOpener();
const tarn = shippedText('tarn-8x8.json');

const pivot = (page: Page) => page.getByLabel('middle-arm pivot x');
const words = (page: Page) => page.locator('.edited');
const undo = (page: Page) => page.getByRole('button', { name: 'Take the last edit back' });
const redo = (page: Page) => page.getByRole('button', { name: 'Do the edit again' });
const toast = (page: Page) => page.locator('.toast');

async function set(page: Page, text: string): Promise<void> {
  await pivot(page).fill(text);
  await pivot(page).press('Enter');
}

/** Waits until the database has the document as it is. */
const kept = (page: Page) => page.locator('.edited[data-kept="true"]').waitFor({ state: 'attached' });

async function again(page: Page): Promise<void> {
  await page.reload();
  await solved(page);
}

/** Another tab of the same browser. */
async function tab(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(inject('appAddress'));
  await solved(page);
  return page;
}

async function documents(page: Page) {
  await page.getByRole('button', { name: 'Documents' }).click();
  const dialog = page.getByRole('dialog', { name: 'Documents' });
  await dialog.locator('.document').first().waitFor();
  return dialog;
}

describe('a document that was changed', () => {
  it('is there again after a reload, with every step by its name', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    await set(page, '-340 mm');
    await undo(page).click();
    await kept(page);
    await again(page);
    expect(await pivot(page).inputValue()).toBe('-337 mm');
    expect(await undo(page).getAttribute('title')).toContain('middle-arm pivot');
    expect(await redo(page).getAttribute('title')).toContain('middle-arm pivot');
    await redo(page).click();
    expect(await pivot(page).inputValue()).toBe('-340 mm');
    await undo(page).click();
    await undo(page).click();
    expect(await pivot(page).inputValue()).toBe('-330 mm');
    expect(await words(page).textContent()).toBe('');
    expect(complaints).toEqual([]);
  });

  it('is there again after a reload at once, in the middle of a drag', async () => {
    const { page } = await open();
    const field = page.locator('.figure', { has: pivot(page) }).locator('label');
    const box = await field.boundingBox();
    if (box === null) throw new Error('no label to drag');
    await page.mouse.move(box.x + 5, box.y + 5);
    await page.mouse.down();
    await page.mouse.move(box.x + 45, box.y + 5, { steps: 10 });
    const dragged = await pivot(page).inputValue();
    expect(dragged).not.toBe('-330 mm');
    await again(page);
    expect(await pivot(page).inputValue()).toBe(dragged);
    await page.mouse.up();
    await undo(page).click();
    expect(await pivot(page).inputValue()).toBe('-330 mm');
    expect(await undo(page).isEnabled()).toBe(false);
  });

  it('is what the window opens with: no demo is shown before it', async () => {
    const { page } = await open();
    await dropFile(page, 'tarn.json', tarn);
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await page.locator('.edited[data-kept="true"]').waitFor({ state: 'attached' });
    await page.addInitScript(() => {
      const seen: string[] = [];
      Object.assign(window, { titlesSeen: seen });
      new MutationObserver(() => {
        const title = document.querySelector('h1')?.textContent ?? '';
        if (title.trim() !== '' && seen.at(-1) !== title) seen.push(title);
      }).observe(document, { childList: true, subtree: true, characterData: true });
    });
    await again(page);
    const seen = await page.evaluate(() => (window as unknown as { titlesSeen: string[] }).titlesSeen);
    expect(seen).toHaveLength(1);
    expect(seen[0]).toContain('Tarn');
    const took = await page.evaluate(() => performance.now());
    process.stdout.write(`A kept document: first answer within ${took.toFixed(0)} ms of navigation\n`);
  });

  it('gives way to another without a question, and waits among the documents', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    await dropFile(page, 'tarn.json', tarn);
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    const dialog = await documents(page);
    await dialog.getByRole('button', { name: /^corrie-6x6 Corrie/ }).click();
    await page.locator('h1', { hasText: 'Corrie' }).waitFor();
    await solved(page);
    expect(await pivot(page).inputValue()).toBe('-337 mm');
    expect(complaints).toEqual([]);
  });

  it('is told to have been recovered when the tab had died', async () => {
    const { page } = await open();
    await set(page, '-337 mm');
    await kept(page);
    const context = page.context();
    const crash = await context.newCDPSession(page);
    await Promise.race([crash.send('Page.crash').catch(() => undefined), page.waitForEvent('crash')]);
    const next = await tab(context);
    expect(await pivot(next).inputValue()).toBe('-337 mm');
    expect(await toast(next).textContent()).toMatch(
      /ended without closing.*corrie-6x6\.json is as it was kept/s,
    );
    await set(next, '-338 mm');
    await kept(next);
  });
});

describe('a browser that dies in the middle of writing', () => {
  it('has the last good state and all steps to it, and never half of a step', async () => {
    const profile = mkdtempSync(join(tmpdir(), 'axlewright-profile-'));
    const start = async () => {
      const context = await chromium.launchPersistentContext(profile, {
        ...chromiumLaunchOptions(),
        viewport: { width: 1440, height: 900 },
      });
      return { context, page: await tab(context) };
    };
    try {
      const first = await start();
      for (let i = 1; i <= 8; i += 1) {
        await set(first.page, `-${330 + i} mm`);
        // The browser ends while one of these is on its way: they are written 300 ms after they were made.
        await first.page.waitForTimeout(i === 8 ? 305 : 150);
      }
      const session = await first.context.newCDPSession(first.page);
      await session.send('Browser.crash').catch(() => undefined);
      await first.context.close().catch(() => undefined);

      const { context, page } = await start();
      await toast(page).waitFor();
      const offer = toast(page).getByRole('button', { name: 'Open it' });
      // Browsers note what was open some seconds late, so after so short a visit it may have to be offered.
      if ((await offer.count()) > 0) await offer.click();
      await expect.poll(() => words(page).textContent()).toContain('edited');
      const last = Number((await pivot(page).inputValue()).match(/\d+/)?.[0]) - 330;
      expect(last).toBeGreaterThanOrEqual(4);
      for (let i = last - 1; i >= 0; i -= 1) {
        await undo(page).click();
        expect(await pivot(page).inputValue()).toBe(`-${330 + i} mm`);
      }
      expect(await undo(page).isEnabled()).toBe(false);
      await context.close();
    } finally {
      rmSync(profile, { recursive: true, force: true });
    }
  });
});

describe('two tabs on one document', () => {
  it('are told, and neither overwrites the other', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    await kept(page);
    const second = await tab(page.context());
    const bar = second.getByRole('alert', { name: /open in another tab/ });
    await bar.waitFor();
    await set(second, '-350 mm');
    expect(await pivot(second).inputValue()).toBe('-337 mm');
    await expect.poll(() => bar.textContent()).toContain('Nothing was changed');
    await bar.getByRole('button', { name: 'Only read' }).click();
    expect(await bar.count()).toBe(0);
    expect(await words(second).textContent()).toBe('read only');
    await set(second, '-351 mm');
    await bar.waitFor();
    expect(await violations(second)).toEqual([]);

    await bar.getByRole('button', { name: 'Open a copy' }).click();
    await solved(second);
    await set(second, '-352 mm');
    await kept(second);
    expect(await second.locator('.document-title .file-name').textContent()).toBe('corrie-6x6 copy.json');
    await again(page);
    expect(await pivot(page).inputValue()).toBe('-337 mm');
    expect(complaints).toEqual([]);
  });

  it('hand it over when asked, and back when the other is closed', async () => {
    const { page } = await open();
    await set(page, '-337 mm');
    const second = await tab(page.context());
    await set(page, '-338 mm');
    await second.getByRole('button', { name: 'Take over' }).click();
    await expect.poll(() => pivot(second).inputValue()).toBe('-338 mm');
    await expect.poll(() => words(second).textContent()).toContain('edited');
    await page.getByRole('alert', { name: /taken over by another tab/ }).waitFor();
    await set(second, '-339 mm');
    await kept(second);
    await second.close();
    await expect.poll(() => pivot(page).inputValue()).toBe('-339 mm');
    await set(page, '-340 mm');
    expect(await pivot(page).inputValue()).toBe('-340 mm');
  });

  it('are one again when the first has died', async () => {
    const { page } = await open();
    await set(page, '-337 mm');
    await kept(page);
    const second = await tab(page.context());
    await second.getByRole('alert', { name: /open in another tab/ }).waitFor();
    const crash = await page.context().newCDPSession(page);
    await Promise.race([crash.send('Page.crash').catch(() => undefined), page.waitForEvent('crash')]);
    await expect.poll(() => words(second).textContent()).toContain('edited');
    await set(second, '-341 mm');
    await kept(second);
    expect(await pivot(second).inputValue()).toBe('-341 mm');
  });
});

describe('a browser', () => {
  it('that is full says so, offers a file, and keeps the document again once there is room', async () => {
    const { page } = await open();
    await set(page, '-337 mm');
    await kept(page);
    // At the database's own interface: Chromium does not hold what it stores against the quota that its tools set.
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = () => {
        throw new DOMException(
          'The current transaction exceeded its quota limitations.',
          'QuotaExceededError',
        );
      };
      Object.assign(window, { makeRoom: () => Object.assign(IDBObjectStore.prototype, { put }) });
    });
    await set(page, '-338 mm');
    const bar = page.getByRole('alert', { name: /storage is full/ });
    await bar.waitFor();
    const download = page.waitForEvent('download');
    await bar.getByRole('button', { name: 'Save a file' }).click();
    expect((await download).suggestedFilename()).toBe('corrie-6x6.json');
    await set(page, '-339 mm');
    await bar.waitFor();
    // With nothing kept, going on to another document is worth the question.
    await dropFile(page, 'tarn.json', tarn);
    const question = page.getByRole('dialog', { name: /unsaved edits/ });
    await question.getByRole('button', { name: 'Stay here' }).click();
    expect(await page.locator('h1').textContent()).toContain('Corrie');
    await page.evaluate(() => (window as unknown as { makeRoom(): void }).makeRoom());
    await set(page, '-340 mm');
    await expect.poll(() => bar.count()).toBe(0);
    await kept(page);
    await again(page);
    expect(await pivot(page).inputValue()).toBe('-340 mm');
  });

  it('that denies its database, as private windows may, says so at the first change and not before', async () => {
    const { page, complaints } = await open({
      before: () => {
        Object.defineProperty(window, 'indexedDB', {
          get: () => {
            throw new DOMException('The operation is insecure.', 'SecurityError');
          },
        });
      },
    });
    const bar = page.getByRole('alert', { name: /stores nothing for this page/ });
    await page.waitForTimeout(1000);
    expect(await bar.count()).toBe(0);
    await set(page, '-337 mm');
    await bar.waitFor();
    const download = page.waitForEvent('download');
    await bar.getByRole('button', { name: 'Save a file' }).click();
    await download;
    expect(await bar.count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('with data of a newer version leaves them alone and says so', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    await kept(page);
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const request = indexedDB.open('axlewright', 99);
          request.onupgradeneeded = () => request.result.createObjectStore('later');
          request.onsuccess = () => {
            request.result.close();
            done();
          };
        }),
    );
    const bar = page.getByRole('alert', { name: /newer version of Axlewright/ });
    await bar.waitFor();
    await again(page);
    expect(await page.locator('h1').textContent()).toContain('Corrie');
    await set(page, '-338 mm');
    await bar.waitFor();
    await expect.poll(() => bar.getByRole('button', { name: 'Save a file' }).count()).toBe(1);
    expect(complaints).toEqual([]);
  });
});

describe('the documents', () => {
  it('are listed with pictures; duplicated, renamed, deleted and brought back', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    const dialog = await documents(page);
    const names = () => dialog.locator('.document-names b').allTextContents();
    await dialog.locator('.thumbnail circle').first().waitFor();
    await dialog.getByRole('button', { name: 'Duplicate corrie-6x6', exact: true }).click();
    await expect.poll(names).toEqual(['corrie-6x6 copy', 'corrie-6x6']);
    await dialog.getByRole('button', { name: 'Rename corrie-6x6 copy' }).click();
    await dialog.getByLabel('New name of corrie-6x6 copy').fill('softer bars');
    await page.keyboard.press('Enter');
    await expect.poll(names).toEqual(['softer bars', 'corrie-6x6']);
    expect(await violations(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Delete corrie-6x6' }).click();
    await expect.poll(names).toEqual(['softer bars']);
    await page.keyboard.press('Escape');
    await solved(page);
    expect(await page.locator('.document-title .file-name').textContent()).toBe('softer bars.json');
    expect(await pivot(page).inputValue()).toBe('-337 mm');
    await toast(page).getByRole('button', { name: 'Bring it back' }).click();
    await expect.poll(() => page.locator('.document-title .file-name').textContent()).toBe('corrie-6x6.json');
    expect(complaints).toEqual([]);
  });

  it('have named versions: one goes back to them in one step, or opens them as a copy', async () => {
    const { page, complaints } = await open();
    await set(page, '-337 mm');
    let dialog = await documents(page);
    await dialog.getByRole('button', { name: 'Save a version' }).click();
    await dialog.getByLabel('Name of the version').fill('first try');
    await page.keyboard.press('Enter');
    await toast(page).waitFor();
    await page.keyboard.press('Escape');
    await set(page, '-345 mm');
    dialog = await documents(page);
    await dialog.getByRole('button', { name: 'Versions of corrie-6x6' }).click();
    await dialog.getByRole('button', { name: 'Go back to it' }).click();
    await expect.poll(() => pivot(page).inputValue()).toBe('-337 mm');
    expect(await undo(page).getAttribute('title')).toContain("go back to 'first try'");
    await undo(page).click();
    expect(await pivot(page).inputValue()).toBe('-345 mm');
    dialog = await documents(page);
    await dialog.getByRole('button', { name: 'Versions of corrie-6x6' }).click();
    await dialog.getByRole('button', { name: 'Open a copy' }).click();
    await expect.poll(() => pivot(page).inputValue()).toBe('-337 mm');
    expect(await page.locator('.document-title .file-name').textContent()).toBe('corrie-6x6 first try.json');
    expect(complaints).toEqual([]);
  });

  it('show all their steps, and go to any of them', async () => {
    const { page } = await open();
    for (const x of ['-335 mm', '-336 mm', '-337 mm']) await set(page, x);
    await page.getByRole('button', { name: 'All steps' }).click();
    const steps = page.getByRole('region', { name: 'All steps' });
    await steps.waitFor();
    await expect.poll(() => steps.getByRole('button', { name: /change middle-arm/ }).count()).toBe(3);
    await steps.getByRole('button', { name: 'as it was opened' }).click();
    await expect.poll(() => pivot(page).inputValue()).toBe('-330 mm');
    await steps.getByRole('button', { name: /2$/ }).click();
    await expect.poll(() => pivot(page).inputValue()).toBe('-336 mm');
    await solved(page);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await expect.poll(() => steps.count()).toBe(0);
  });
});
