import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Locator, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener, dropFile, readout, solved } from './browser.ts';
import { shippedText } from './documents.ts';

const open = appOpener();

/** Pictures for those who want to look: nothing is compared with them. */
const PICTURES = fileURLToPath(new URL('../../node_modules/.cache/axlewright/driveline', import.meta.url));

async function picture(page: Page, name: string): Promise<void> {
  mkdirSync(PICTURES, { recursive: true });
  await page.screenshot({ path: `${PICTURES}/${name}.png` });
}

/** Opens the truck with shafts and joints, crawling or to be built. */
async function openShafts(key: '2' | '3' | 'b', options: Parameters<typeof open>[0] = {}) {
  const watched = await open(options);
  const { page } = watched;
  await dropFile(page, 'cairn-6x6-shafts.json', shippedText('cairn-6x6-shafts.json'));
  await page.locator('h1', { hasText: 'Cairn' }).waitFor();
  await page.keyboard.press(key);
  await page.locator('.drive-diagram .drive-part').first().waitFor();
  await solved(page);
  return watched;
}

const cell = (page: Page, name: string): Locator =>
  page.locator('.drive-part', { has: page.locator(`[aria-label^="${name},"]`) });
const useOf = (page: Page, name: string): Promise<string | null> =>
  cell(page, name).locator('.drive-use').textContent();

/** Middle of a part's plate on the page, px. */
async function middleOf(page: Page, name: string): Promise<{ x: number; y: number }> {
  const box = await cell(page, name).locator('.drive-plate').boundingBox();
  if (box === null) throw new Error(`${name} is not in sight`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function drag(page: Page, from: string, to: { x: number; y: number }): Promise<void> {
  const at = await middleOf(page, from);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move((at.x + to.x) / 2, (at.y + to.y) / 2, { steps: 5 });
  await page.mouse.move(to.x, to.y, { steps: 5 });
  await page.mouse.up();
}

/** Presses Tab until something inside of a place has the keyboard. */
async function tabInto(page: Page, place: string): Promise<void> {
  for (let i = 0; i < 120; i += 1) {
    if (await page.evaluate((selector) => document.activeElement?.closest(selector) != null, place)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead into ${place}`);
}

const lastStep = (page: Page): Promise<string | null> =>
  page.getByRole('button', { name: 'Take the last edit back' }).getAttribute('title');

describe('the diagram', () => {
  it('tells what each part uses where the joint gives, after a press on its line of the ledger', async () => {
    const { page, complaints } = await openShafts('2');
    expect(await page.locator('.drive-part').count()).toBe(12);
    const before = await useOf(page, 'rear joint at the transfer');
    await page.getByRole('button', { name: 'Ledger', exact: true }).click();
    await page.locator('.ledger-line').first().locator('button').click();
    expect(await readout(page, 'station')).toBeCloseTo(577, 0);
    expect(await cell(page, 'rear joint at the transfer').getAttribute('data-chosen')).toBe('true');
    await expect.poll(() => useOf(page, 'rear joint at the transfer')).toBe('113 %');
    expect(before).not.toBe('113 %');
    expect(await page.locator('.drive-part[data-over]').count()).toBe(2);
    expect(await useOf(page, 'motors')).toBe('52 %');
    // The mark on the picture, the line from it and the part's true place are in one column.
    const ring = Number(await page.locator('.drive-mark circle').getAttribute('cx'));
    const guide = /^M([\d.]+) 0/.exec((await page.locator('.drive-guide').getAttribute('d')) ?? '')?.[1];
    expect(Math.abs(Number(guide) - ring)).toBeLessThan(0.2);
    await page.keyboard.press('v');
    await cell(page, 'rear joint at the transfer').hover();
    const note = page.locator('.drive-note');
    for (const words of ['torque in', 'measured ± 10 %', 'angle', '113 % at 577 mm'])
      expect(await note.textContent()).toContain(words);
    await picture(page, 'failing-joint');
    expect(complaints).toEqual([]);
  });

  it('stands in one column with the picture, bands and ruler, whatever the zoom', async () => {
    const { page } = await openShafts('2');
    const apart = async () => {
      const rings = await page
        .locator('.drive-guides path')
        .evaluateAll((paths) =>
          paths.map((path) => Number(/^M([-\d.]+)/.exec(path.getAttribute('d') ?? '')?.[1])),
        );
      const here = await page
        .locator('.band-here')
        .evaluateAll((marks) => marks.map((mark) => new DOMMatrix(getComputedStyle(mark).transform).e));
      return rings.map((x, i) => Math.abs(x - (here[i] ?? Number.NaN)));
    };
    // At the start it stands on the level: hubs are over their contacts, to the width of a mark.
    for (const key of ['g', 'v', '+', '-']) {
      await page.keyboard.press(key);
      await expect.poll(async () => Math.max(...(await apart()))).toBeLessThan(2.5);
    }
  });

  it('follows the crossing frame by frame, and drives too', async () => {
    const { page, complaints } = await openShafts('3');
    const uses = async () => page.locator('.drive-use').allTextContents();
    await page.keyboard.press('Home');
    const first = await uses();
    for (let i = 0; i < 12; i += 1) await page.keyboard.press('Shift+ArrowRight');
    expect(await uses()).not.toEqual(first);
    expect(complaints).toEqual([]);
  });

  it('is walked through by arrow keys, with figures beside the part that has the keyboard', async () => {
    const { page } = await openShafts('2');
    await tabInto(page, '.drive-part');
    await page.keyboard.press('End');
    await page.keyboard.press('Home');
    const name = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label')?.split(',')[0]);
    expect(await name()).toBe('rear final drive');
    await page.keyboard.press('ArrowRight');
    expect(await name()).toBe('beam shaft');
    expect(await page.locator('.drive-note').textContent()).toContain('beam shaft');
    await page.keyboard.press('ArrowUp');
    expect(await name()).toBe('middle final drive');
    await page.keyboard.press('ArrowDown');
    expect(await name()).toBe('beam shaft');
  });
});

describe('the ledger', () => {
  it('finds the greatest mass and what would help, and takes a change as one step', async () => {
    const { page, complaints } = await openShafts('2');
    await page.getByRole('tab', { name: 'Ledger' }).click();
    await page.getByRole('button', { name: 'Find the greatest mass' }).click();
    await page.locator('.limit-chart').waitFor();
    expect(await page.locator('.ledger .run-end').textContent()).toContain('lighter than today');
    await page.getByRole('button', { name: /show as a table/ }).click();
    expect(await page.locator('.limit-chart-table tbody tr').count()).toBeGreaterThan(8);
    await page.getByRole('button', { name: 'Find what would help' }).click();
    await page.locator('.remedies').waitFor();
    expect(await page.locator('.remedy').count()).toBeGreaterThan(3);
    await picture(page, 'ledger');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: /Take it: A motor for each axle/ }).click();
    await solved(page);
    expect(await lastStep(page)).toContain('take: a motor for each axle');
    await expect.poll(() => page.locator('.drive-part[data-over]').count()).toBe(0);
    expect(await page.locator('.ledger-says').textContent()).toContain('Nothing gives');
    expect(await page.getByRole('button', { name: /Take it: A motor for each axle/ }).isDisabled()).toBe(
      true,
    );
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    await expect.poll(() => page.locator('.drive-part[data-over]').count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it('can be taken away as a table', async () => {
    const { page } = await openShafts('2', { permissions: ['clipboard-read', 'clipboard-write'] });
    await page.getByRole('tab', { name: 'Ledger' }).click();
    await page.getByRole('button', { name: 'Copy the table' }).click();
    await page.getByText('copied', { exact: true }).waitFor();
    const text = await page.evaluate(() => navigator.clipboard.readText());
    const lines = await page.locator('.ledger-line').count();
    expect(text.split('\n')).toHaveLength(lines + 1);
    expect(text.split('\n')[1]?.split('\t').slice(0, 3)).toEqual([
      'joint',
      'rear joint at the transfer',
      'torque',
    ]);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('cairn-6x6-shafts-ledger.csv');
  });
});

describe('a drive line', () => {
  it('is made from a layout and changed by mouse', async () => {
    const { page, complaints } = await open();
    await page.keyboard.press('b');
    await page.locator('.building .knob').first().waitFor();
    await solved(page);
    expect(await page.locator('.drive-strip').count()).toBe(0);
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await page.getByRole('button', { name: 'One motor, gearbox, shafts and joints' }).click();
    await page.locator('.drive-part').first().waitFor();
    await solved(page);
    expect(await lastStep(page)).toContain('lay out drive line');
    const count = await page.locator('.drive-part').count();
    expect(count).toBeGreaterThan(8);
    await cell(page, 'front final drive').click();
    await page.getByRole('button', { name: 'Add part' }).click();
    await page.getByRole('button', { name: 'Hub or portal reduction' }).click();
    await solved(page);
    expect(await page.locator('.drive-part').count()).toBe(count + 1);
    expect(await page.getByLabel('hub reduction from', { exact: true }).inputValue()).toBe(
      'front final drive',
    );
    await drag(page, 'gearbox', {
      ...(await middleOf(page, 'gearbox')),
      x: (await middleOf(page, 'gearbox')).x + 34,
    });
    await solved(page);
    expect(await lastStep(page)).toContain('move gearbox');
    await drag(page, 'hub reduction', await middleOf(page, 'rear final drive'));
    await solved(page);
    expect(await lastStep(page)).toContain('hang hub reduction on rear final drive');
    await picture(page, 'made-by-mouse');
    for (let i = 0; i < 4; i += 1)
      await page.getByRole('button', { name: 'Take the last edit back' }).click();
    await expect.poll(() => page.locator('.drive-strip').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('is made from a layout and changed by keyboard alone', async () => {
    const { page, complaints } = await open();
    await page.keyboard.press('b');
    await page.locator('.building .knob').first().waitFor();
    await solved(page);
    await page.keyboard.press('a');
    await page.getByLabel('Find a part to add').waitFor();
    await page.keyboard.type('motor for each axle');
    await page.keyboard.press('Enter');
    await page.locator('.drive-part').first().waitFor();
    await solved(page);
    expect(await page.locator('.drive-part').count()).toBe(6);
    await tabInto(page, '.drive-part');
    await page.keyboard.press('Home');
    const name = () =>
      page.evaluate(() => document.activeElement?.getAttribute('aria-label')?.split(',')[0] ?? '');
    const first = await name();
    const at = () => page.getByLabel(`${first} at x`).inputValue();
    const was = await at();
    await page.keyboard.press('Alt+ArrowRight');
    await expect.poll(at).not.toBe(was);
    expect(await name()).toBe(first);
    // Another way to hang it: the button, then the part that is to turn it.
    await page.keyboard.press('ArrowRight');
    const second = await name();
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.getByText(/on which part\?/).waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('End');
    const target = await name();
    await page.keyboard.press('Enter');
    await solved(page);
    expect(await lastStep(page)).toContain(`hang ${second} on ${target}`);
    await page.keyboard.press('Control+z');
    await tabInto(page, '.drive-part');
    await page.keyboard.press('Home');
    await page.keyboard.press('Delete');
    await expect.poll(() => page.locator('.drive-part').count()).toBe(5);
    expect(complaints).toEqual([]);
  });

  it('that turns itself is shown as broken, with the reason, and heals', async () => {
    const { page } = await openShafts('b');
    await cell(page, 'transfer gears').click();
    await page.getByLabel('transfer gears from', { exact: true }).selectOption('front shaft');
    await expect.poll(() => page.locator('.drive-part[data-broken="true"]').count()).toBeGreaterThan(0);
    const verdict = await page.locator('.drive-verdict').textContent();
    expect(verdict).toContain('circle');
    await picture(page, 'broken');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    await expect.poll(() => page.locator('.drive-part[data-broken="true"]').count()).toBe(0);
    // A drag that would make a circle changes nothing, and says why.
    await drag(page, 'transfer gears', await middleOf(page, 'front shaft'));
    await page.getByText('it would turn itself').waitFor();
    expect(await page.locator('.drive-part[data-broken="true"]').count()).toBe(0);
  });
});

/** Main parts of the window that lie over each other. */
async function clashes(page: Page, parts: readonly string[]): Promise<string[]> {
  return page.evaluate((selectors) => {
    const boxes = selectors.map(
      (part) => [part, document.querySelector(part)?.getBoundingClientRect()] as const,
    );
    return boxes.flatMap(([a, p], i) => {
      if (p === undefined || p.height < 20) return [`${a} has no place`];
      return boxes.slice(i + 1).flatMap(([b, q]) => {
        if (q === undefined) return [];
        const across = Math.min(p.right, q.right) - Math.max(p.left, q.left);
        const down = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
        return across > 1 && down > 1 ? [`${a} lies over ${b}`] : [];
      });
    });
  }, parts);
}

describe('the looks of the drive line', () => {
  it.each([
    { colorScheme: 'light', width: 1024, height: 700 },
    { colorScheme: 'dark', width: 1440, height: 900 },
    { colorScheme: 'light', width: 3840, height: 2160 },
  ] as const)('in $colorScheme at $width × $height are in order', async ({ colorScheme, width, height }) => {
    const { page } = await openShafts('2', { colorScheme, viewport: { width, height } });
    await page.locator('.drive-verdict').click();
    await page.getByRole('tab', { name: 'Ledger' }).click();
    await page.locator('.ledger-line').first().waitFor();
    await picture(page, `crawl-${colorScheme}-${width}`);
    expect(await violations(page)).toEqual([]);
    expect(
      await clashes(page, ['.header', '.picture', '.drive-strip', '.record', '.timeline', '.side']),
    ).toEqual([]);
    await page.keyboard.press('b');
    await page.locator('.building .drive-part').first().waitFor();
    await solved(page);
    await picture(page, `build-${colorScheme}-${width}`);
    expect(await violations(page)).toEqual([]);
    const parts = ['.header', '.build-bar', '.parts-column', '.picture', '.drive-strip', '.answers'];
    expect(await clashes(page, parts)).toEqual([]);
    await page.getByRole('button', { name: 'Add part' }).click();
    expect(await violations(page)).toEqual([]);
  });
});
