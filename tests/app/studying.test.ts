import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener, solved } from './browser.ts';

const open = appOpener();

/** Opens the panel of the study and has a number vary, with so many values. */
async function vary(page: Page, name: string, steps: number): Promise<void> {
  const field = page.getByLabel('Number to vary', { exact: true });
  await field.fill(name);
  await page.getByRole('button', { name: 'Vary this' }).click();
  const values = page.getByLabel(`${name}: values`).last();
  await values.fill(String(steps));
  await values.press('Enter');
}

const tune = (page: Page) => page.getByRole('tab', { name: 'Tune' }).click();
const results = (page: Page) => page.locator('.study-results');
const shotTo = process.env.STUDY_SHOTS;

async function shot(page: Page, name: string): Promise<void> {
  if (shotTo !== undefined) await page.screenshot({ path: `${shotTo}/${name}.png` });
}

const DONE = { timeout: 120_000 };

describe('a study of the flagship', () => {
  it('goes from two numbers over their field to a design that is taken as one step', async () => {
    const { page, complaints } = await open();
    await tune(page);
    await vary(page, 'middle-arm and rear-arm: pivot x', 7);
    await vary(page, 'middle-arm and rear-arm: pivot z', 5);
    await page.getByRole('button', { name: 'Try 35 designs' }).click();
    await results(page).locator('.study-field').waitFor(DONE);
    await page.getByRole('button', { name: 'Run again: 35 designs' }).waitFor(DONE);
    await expect
      .poll(() => results(page).locator('.study-summary').textContent())
      .toMatch(/of 35 designs hold/);
    expect(await results(page).locator('.samples-table tbody tr').count()).toBe(35);
    await page.getByRole('radio', { name: 'Crawl' }).check();
    await solved(page);
    const first = results(page)
      .getByRole('button', { name: /^Show design/ })
      .first();
    await first.click();
    await results(page).getByText('On the picture, crawling').waitFor();
    expect(await violations(page)).toEqual([]);
    await shot(page, 'field-light-1440');
    await page.setViewportSize({ width: 1024, height: 700 });
    await shot(page, 'field-light-1024');
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.keyboard.press('t');
    await page.keyboard.press('t');
    await shot(page, 'field-dark-1440');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Take this design' }).click();
    await solved(page);
    const undo = page.getByRole('button', { name: 'Take the last edit back' });
    expect(await undo.getAttribute('title')).toMatch(/take design \d+ of the study/);
    await undo.click();
    expect(await undo.isDisabled()).toBe(true);
    expect(complaints).toEqual([]);
  }, 240_000);

  it('goes on where it was after a reload, and computes nothing twice', async () => {
    const { page } = await open();
    await tune(page);
    await vary(page, 'middle-arm and rear-arm: pivot x', 41);
    await page.getByRole('button', { name: 'Try 41 designs' }).click();
    await expect.poll(() => page.locator('.run-study .job .soft').textContent(), DONE).toMatch(/^\d+ of 42/);
    await page.getByRole('button', { name: 'Pause' }).click();
    await page.getByText('Paused; it goes on from here').waitFor();
    // What was under way when it was paused is finished and kept.
    let before = -1;
    await expect
      .poll(async () => {
        const now = await journal(page);
        const rests = now.length === before;
        before = now.length;
        return rests;
      }, DONE)
      .toBe(true);
    const kept = await journal(page);
    expect(kept.length).toBeGreaterThan(0);
    await page.evaluate(() => sessionStorage.setItem('mark', 'after'));
    await page.reload();
    await solved(page);
    await page.getByRole('button', { name: 'Go on' }).click();
    await page.getByRole('button', { name: 'Run again: 41 designs' }).waitFor(DONE);
    const all = await journal(page);
    expect(all.length).toBeGreaterThanOrEqual(42);
    // An entry that was computed again would be written again, with a mark that is not the first one's.
    expect(all.filter(({ mark }) => mark === 'before').length).toBe(kept.length);
  }, 240_000);

  it('takes a figure where it stands, and shows three numbers and two goals to be brushed and weighed', async () => {
    const { page, complaints } = await open();
    await page.getByLabel('middle-arm pivot x').focus();
    await page.getByRole('button', { name: 'Vary', exact: true }).click();
    await page.locator('.number', { hasText: 'middle-arm' }).waitFor();
    await page.getByRole('tab', { name: 'Figures' }).click();
    await page.getByLabel('middle-arm bump').focus();
    await page.keyboard.press('Alt+Enter');
    await page.locator('.number', { hasText: 'bump' }).waitFor();
    await vary(page, 'middle-arm and rear-arm: pivot z', 5);
    expect(await page.locator('.tune .number').count()).toBe(3);
    await page.getByRole('button', { name: 'Add a second goal' }).click();
    await page.getByLabel('Goal 2: measure').selectOption('leastClearance');
    await page.getByLabel('Method').selectOption('low-discrepancy');
    await page.locator('.effort input').fill('24');
    await page.getByRole('button', { name: 'Try 24 designs' }).click();
    await page.getByRole('button', { name: 'Run again: 24 designs' }).waitFor(DONE);
    await page.getByRole('radio', { name: 'Trade-off' }).check();
    await results(page).locator('.front-line, .sample-dot').first().waitFor();
    await shot(page, 'front-light-1440');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('radio', { name: 'All numbers' }).check();
    await page.getByText('Filter by sliders').click();
    const all = await results(page).locator('.samples-table tbody tr').count();
    expect(all).toBe(24);
    const slider = results(page).locator('.brush-sliders input').first();
    await slider.fill('50');
    const fewer = await results(page).locator('.samples-table tbody tr').count();
    expect(fewer).toBeGreaterThan(0);
    expect(fewer).toBeLessThan(all);
    await shot(page, 'lines-light-1440');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Show all' }).click();
    expect(await results(page).locator('.samples-table tbody tr').count()).toBe(all);
    await page.setViewportSize({ width: 1024, height: 700 });
    await shot(page, 'lines-light-1024');
    expect(complaints).toEqual([]);
  }, 240_000);

  it('is gone through by keyboard alone', async () => {
    const { page } = await open();
    await page.getByRole('radio', { name: 'Crawl' }).check();
    await solved(page);
    await tune(page);
    await vary(page, 'middle-arm and rear-arm: pivot x', 5);
    await page.getByRole('button', { name: 'Try 5 designs' }).press('Enter');
    await page.getByRole('button', { name: 'Run again: 5 designs' }).waitFor(DONE);
    const frame = results(page).locator('.field-frame');
    await frame.focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await results(page)
      .getByText(/On the picture|It cannot be shown/)
      .waitFor();
    await shot(page, 'line-light-1440');
    await page.getByRole('button', { name: 'Take this design' }).press('Enter');
    const undo = page.getByRole('button', { name: 'Take the last edit back' });
    await expect.poll(() => undo.getAttribute('title')).toMatch(/take design \d+/);
  }, 240_000);
});

/** Entries of the study's journal; each one that is seen for the first time is marked. */
function journal(page: Page): Promise<{ mark: string }[]> {
  return page.evaluate(
    () =>
      new Promise<{ mark: string }[]>((resolve, reject) => {
        const request = indexedDB.open('axlewright-studies');
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
          const store = request.result.transaction('entries', 'readwrite').objectStore('entries');
          const all = store.getAll();
          all.onsuccess = () => {
            const rows = all.result as { mark?: string }[];
            const mark = sessionStorage.getItem('mark') ?? 'before';
            for (const row of rows)
              if (row.mark === undefined && mark === 'before') store.put({ ...row, mark });
            resolve(rows.map((row) => ({ mark: row.mark ?? mark })));
          };
        };
      }),
  );
}
