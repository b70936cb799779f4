import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener, solved } from './browser.ts';

const open = appOpener();
const shots = new URL('./__screenshots__/', import.meta.url).pathname;

/** Opens the app in a mode by its key, and goes close to the vehicle. */
async function openIn(key: '1' | '2' | '3', options?: Parameters<typeof open>[0]) {
  const opened = await open(options);
  if (key !== '3') await opened.page.keyboard.press(key);
  if (key === '1') await opened.page.locator('.standing[data-stale="false"] tbody tr').first().waitFor();
  else await solved(opened.page);
  await opened.page.keyboard.press('v');
  await opened.page.locator('.thing-list').waitFor({ state: 'attached' });
  return opened;
}

const card = (page: Page) => page.locator('.thing-card');

/** Box of the element, which must be on the page. */
async function boxOf(page: Page, selector: string) {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`${selector} is not in sight`);
  return box;
}

/** Goes to a thing of the picture by its name, with the keyboard alone. */
async function goTo(page: Page, name: string): Promise<void> {
  await page.locator('.thing-list').focus();
  for (let i = 0; i < 60; i += 1) {
    const said = await page.locator('.thing-list [aria-selected="true"]').textContent();
    if (said?.startsWith(name) === true) return;
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`no ${name} in the list`);
}

describe('the card of a thing', () => {
  it.each(['1', '2', '3'] as const)('comes by keyboard in mode %s, and says what it shows', async (key) => {
    const { page, complaints } = await openIn(key);
    await goTo(page, 'rear, wheels');
    expect(await card(page).textContent()).toMatch(/rear.*load, all 2 wheels.* N/);
    const said = await page.locator('.thing-list [aria-selected="true"]').textContent();
    expect(said).toMatch(/^rear, wheels: load, all 2 wheels [\d.]+ N, of its standing load [\d.]+ %/);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await card(page).count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('shows the figures of the frame on show', async () => {
    const { page } = await openIn('3');
    await goTo(page, 'rear, wheels');
    const share = () =>
      card(page).locator('div', { hasText: 'of its standing load' }).locator('dd').textContent();
    const before = await share();
    await page.locator('.verdict', { hasText: 'Every wheel keeps' }).click();
    await goTo(page, 'rear, wheels');
    expect(before).not.toBe(await share());
    expect(Number.parseFloat((await share()) ?? '')).toBeLessThan(1);
  });

  it('lies beside its thing, never over it, for every thing of the flagship', async () => {
    const { page } = await openIn('2');
    await page.locator('.thing-list').focus();
    const count = await page.locator('.thing-list [role="option"]').count();
    expect(count).toBeGreaterThan(15);
    for (let i = 0; i < count; i += 1) {
      const ring = await boxOf(page, '.thing-ring');
      const over = await boxOf(page, '.thing-card');
      const across = Math.min(ring.x + ring.width, over.x + over.width) - Math.max(ring.x, over.x);
      const down = Math.min(ring.y + ring.height, over.y + over.height) - Math.max(ring.y, over.y);
      expect(
        across > 1 && down > 1,
        (await page.locator('[aria-selected="true"].unseen').textContent()) ?? '',
      ).toBe(false);
      await page.keyboard.press('ArrowDown');
    }
    await page.screenshot({ path: `${shots}reading-card.png` });
  });

  it('comes under the mouse, is held by a press, and draws a line of its figure', async () => {
    const { page, complaints } = await openIn('2');
    await goTo(page, 'front, wheels');
    const ring = await boxOf(page, '.thing-ring');
    await page.keyboard.press('Escape');
    // Near the foot of the rim, where nothing else is.
    const at = { x: ring.x + ring.width / 2 + 14, y: ring.y + ring.height - 12 };
    await page.mouse.move(at.x, at.y);
    await expect.poll(() => card(page).getAttribute('aria-label')).toBe('Figures of front');
    await page.mouse.click(at.x, at.y);
    await page.getByRole('button', { name: 'Line of grip used under the strips' }).click();
    await page.locator('.lines').waitFor();
    expect(await page.locator('.line-names').textContent()).toBe('Grip usefront');
    await page.reload();
    await solved(page);
    await page.locator('.lines').waitFor();
    await page.getByRole('button', { name: /Take the line 'grip use, front' away/ }).click();
    expect(await page.locator('.lines').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('comes by a tap at 390 px, where one can still play', async () => {
    const { page, complaints } = await open({
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    });
    await page.locator('.thing-list').waitFor({ state: 'attached' });
    const { x, y, width, height } = await boxOf(page, '.scene-view');
    for (const share of [0.3, 0.26, 0.34, 0.38]) {
      await page.touchscreen.tap(x + width * share, y + height * 0.62);
      if ((await card(page).count()) > 0) break;
    }
    await card(page).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: `${shots}reading-phone.png` });
    const over = await boxOf(page, '.thing-card');
    expect(over.y).toBeGreaterThan(y + height);
    await page.getByRole('button', { name: 'Close the card' }).tap();
    await page.getByRole('button', { name: 'Play' }).tap();
    await expect
      .poll(async () => Number(await page.locator('.readout b').first().textContent()))
      .toBeGreaterThan(0.1);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wide).toBe(0);
    const buttons = await page
      .locator('.play-row button')
      .evaluateAll((all) => all.map((b) => b.getBoundingClientRect().width));
    for (const w of buttons) expect(w).toBeGreaterThanOrEqual(44);
    expect(complaints).toEqual([]);
  });

  it('is there while building, under a pointer that rests, and beside what is selected', async () => {
    const { page, complaints } = await openIn('2');
    await page.keyboard.press('b');
    await page.locator('.building .standing tbody tr').first().waitFor();
    await page
      .getByRole('treeitem', { name: /^rear torsion bars/ })
      .first()
      .click();
    await page.getByText('Figures as it stands').click();
    expect(await page.locator('.entry-facts').textContent()).toMatch(/torque.*N·mm.*shear stress/);
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });
});

describe('lines and tables', () => {
  it('are chosen by keyboard, and every table can be copied and saved', async () => {
    const { page, complaints } = await openIn('2', { permissions: ['clipboard-read', 'clipboard-write'] });
    await page.keyboard.press('i');
    await page.getByLabel('Find a quantity').and(page.locator(':focus')).waitFor();
    await page.keyboard.type('bending rear');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.locator('.lines').waitFor();
    await page.keyboard.press('u');
    await page.getByRole('region', { name: 'Tables' }).waitFor();
    for (const [name, head] of [
      ['Bands', 'load front (N)'],
      ['Strips', 'travel rear (mm)'],
      ['Lines that were added', 'bending moment, rear-arm (N·m)'],
      ['Measures', 'measure'],
    ] as const) {
      await page.getByRole('combobox', { name: 'Table' }).selectOption(name);
      expect(await page.locator('.sheet-rows thead').textContent()).toContain(head);
      expect(await page.locator('.sheet-rows tbody tr').count()).toBeGreaterThan(10);
      expect(await violations(page)).toEqual([]);
    }
    await page.getByRole('combobox', { name: 'Table' }).selectOption('Strips');
    await page.getByRole('button', { name: 'Copy' }).click();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied.split('\n')[0]?.split('\t')[0]).toBe('time (s)');
    expect(copied.split('\n').length).toBeGreaterThan(400);
    await page.getByRole('checkbox', { name: /in SI/ }).check();
    expect(await page.locator('.sheet-rows thead').textContent()).toContain('travel rear (m)');
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ]);
    expect(file.suggestedFilename()).toBe('corrie-6x6-strips.csv');
    await page.screenshot({ path: `${shots}reading-tables.png` });
    await page.keyboard.press('Escape');
    expect(await page.getByRole('region', { name: 'Tables' }).count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('compare: a kept run stays beside the new one, by name and in a table', async () => {
    const { page } = await openIn('2');
    await page.keyboard.press('k');
    await page.getByLabel('middle-arm pivot x').fill('-326 mm');
    await page.getByLabel('middle-arm pivot x').press('Enter');
    await expect.poll(() => page.locator('.comparison .words').textContent()).toMatch(/better/);
    expect(await page.locator('.comparison .words').getAttribute('title')).toContain(
      'the kept run, as it was opened',
    );
    await page.getByRole('tab', { name: 'Changes' }).click();
    await page.locator('.changes li').nth(3).waitFor();
    expect(await page.locator('.changes .from-to').first().textContent()).toMatch(/^before .* now /);
    await page.getByRole('button', { name: 'Table', exact: true }).click();
    expect(await page.locator('.sheet-rows thead').textContent()).toContain('difference');
    expect(await violations(page)).toEqual([]);
  });
});

describe('units', () => {
  it.each(['light', 'dark'] as const)(
    'of choice are shown everywhere in %s, and the document stays as it is',
    async (colorScheme) => {
      const { page, complaints } = await openIn('2', { colorScheme });
      const pivot = await page.getByLabel('middle-arm pivot x').inputValue();
      await page.getByRole('button', { name: /^Figures in/ }).click();
      expect(await violations(page)).toEqual([]);
      await page.getByRole('radio', { name: /inches/ }).check();
      await page.keyboard.press('Escape');
      expect(await page.locator('.readout').textContent()).toContain('in');
      expect(await page.locator('.bands').textContent()).toContain('lbf');
      const verdicts = (await page.locator('.verdicts').textContent()) ?? '';
      expect(verdicts).toMatch(/lost [\d.]+\u00a0?\s?lbf/);
      expect(verdicts).not.toMatch(/\d\s?(mm|N)\b/);
      await page.getByRole('tab', { name: 'Measures' }).click();
      await page.locator('.measure').first().waitFor();
      expect(await page.locator('.measures').textContent()).not.toMatch(/\d (mm|N|kg|N·mm)\b(?! *;)/);
      await page.getByRole('tab', { name: 'Figures' }).click();
      expect(await page.getByLabel('middle-arm pivot x').inputValue()).toBe(pivot);
      await page.getByRole('button', { name: /^Figures in/ }).click();
      await page.getByRole('checkbox', { name: /Full size/ }).check();
      await page.keyboard.press('Escape');
      expect(await page.getByRole('note').filter({ hasText: 'Froude' }).textContent()).toContain(
        '1:16 model',
      );
      expect(await page.locator('.bands').textContent()).toMatch(/\d{4,} lbf/);
      expect(await violations(page)).toEqual([]);
      await page.screenshot({ path: `${shots}reading-units-${colorScheme}.png` });
      expect(complaints).toEqual([]);
    },
  );
});

describe('the palette of actions', () => {
  it('finds an action by words, does it, and gives the keyboard back', async () => {
    const { page, complaints } = await openIn('3');
    await page.keyboard.press('Control+k');
    await page.getByLabel('Find an action').and(page.locator(':focus')).waitFor();
    await page.keyboard.type('crawl');
    expect(
      await page.getByRole('combobox', { name: 'Find an action' }).getAttribute('aria-activedescendant'),
    ).not.toBeNull();
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: `${shots}reading-palette.png` });
    await page.keyboard.press('Enter');
    await page.getByRole('radio', { name: 'Crawl' }).and(page.locator(':checked')).waitFor();
    expect(await page.locator('.palette').count()).toBe(0);
    await page.keyboard.press('Control+k');
    await page.getByLabel('Find an action').and(page.locator(':focus')).waitFor();
    await page.keyboard.type('panel joints');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('tab-joints');
    await page.keyboard.press('Control+k');
    await page.getByLabel('Find an action').and(page.locator(':focus')).waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.palette').count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('tab-joints');
    expect(complaints).toEqual([]);
  });
});
