import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { appOpener, dropFile, solved } from './browser.ts';
import { shippedText } from './documents.ts';

const open = appOpener();
const tarn = shippedText('tarn-8x8.json');

async function chooseFile(page: Page, name: string, text: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open' }).click();
  await (await chooser).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
}

async function savedText(page: Page): Promise<{ name: string; text: string }> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save' }).click();
  const file = await download;
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), 'utf8') };
}

const titleOf = (page: Page) => page.locator('h1').textContent();

describe('a file', () => {
  it('is opened, driven, and saved again byte for byte', async () => {
    const { page, complaints } = await open();
    const odd = `\uFEFF${tarn.replaceAll('\n', '\r\n')}\r\n\r\n`;
    await chooseFile(page, 'odd.json', odd);
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await solved(page);
    expect(await savedText(page)).toEqual({ name: 'odd.json', text: odd });
    expect(complaints).toEqual([]);
  });

  it('is saved with nothing changed but the figure that was edited', async () => {
    const { page } = await open();
    await page.getByLabel('middle-arm pivot x').fill('-337 mm');
    await page.getByLabel('middle-arm pivot x').press('Enter');
    expect(await page.locator('.edited').textContent()).toContain('edited');
    const { text } = await savedText(page);
    const shipped = shippedText('corrie-6x6.json');
    expect(text).toBe(shipped.replace('"pivot": { "x": "-330 mm"', '"pivot": { "x": "-337 mm"'));
    expect(text).not.toBe(shipped);
    await expect.poll(() => page.locator('.edited').textContent()).toBe('');
  });

  it('is opened by dropping it onto the window', async () => {
    const { page, complaints } = await open();
    await dropFile(page, 'dropped.json', tarn);
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await solved(page);
    expect(await page.locator('.drop-zone').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('that is broken shows all its problems with their places and leaves the open document alone', async () => {
    const { page, complaints } = await open();
    const before = await titleOf(page);
    const broken = tarn
      .replace('"version": 1,', '"version": 1, "gravity": "-9.81 m/s^2",')
      .replace('"radius"', '"raduis"')
      .replace('"speed": "', '"speed": "x');
    await dropFile(page, 'broken.json', broken);
    const refused = page.getByRole('alert', { name: 'File not opened' });
    await refused.waitFor();
    const text = (await refused.textContent()) ?? '';
    for (const words of ['broken.json', 'gravity', 'vehicle.wheels[0]', 'radius', 'vehicle.drive.speed']) {
      expect(text).toContain(words);
    }
    expect(await titleOf(page)).toBe(before);
    expect(await page.locator('.verdict').count()).toBe(5);
    await page.getByRole('button', { name: 'Close this message' }).click();
    expect(await refused.count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it.each([
    ['empty.json', ''],
    ['cut.json', tarn.slice(0, 400)],
    ['words.json', 'not JSON at all'],
    ['null.json', 'null'],
    ['list.json', '[1, 2, 3]'],
    ['deep.json', '['.repeat(200_000)],
    ['huge.json', `{"title": "${'x'.repeat(5_100_000)}"}`],
    ['newer.json', tarn.replace('"version": 1', '"version": 99')],
  ])('%s is refused with a reason', async (name, text) => {
    const { page, complaints } = await open();
    const before = await titleOf(page);
    await dropFile(page, name, text);
    const refused = page.getByRole('alert', { name: 'File not opened' });
    await refused.waitFor();
    expect((await refused.locator('li').first().textContent())?.length).toBeGreaterThan(10);
    expect(await titleOf(page)).toBe(before);
    expect(complaints).toEqual([]);
  });

  it('asks before it replaces unsaved edits', async () => {
    const { page } = await open();
    await page.getByLabel('middle-arm pivot x').fill('-337 mm');
    await page.getByLabel('middle-arm pivot x').press('Enter');
    await dropFile(page, 'tarn.json', tarn);
    const dialog = page.getByRole('dialog', { name: /unsaved edits/ });
    await dialog.getByRole('button', { name: 'Stay here' }).click();
    expect(await titleOf(page)).toContain('Corrie');
    await dropFile(page, 'tarn.json', tarn);
    await dialog.getByRole('button', { name: 'Throw away' }).click();
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
  });
});

describe('the demos', () => {
  it('all open and come out with verdicts', async () => {
    const { page, complaints } = await open();
    const items = page.locator('.menu-item');
    const count = await items.count();
    expect(count).toBeGreaterThanOrEqual(5);
    for (let i = 0; i < count; i += 1) {
      await page.getByRole('button', { name: 'Demos' }).click();
      const title = (await items.nth(i).locator('span').first().textContent()) ?? '';
      await items.nth(i).click();
      await page.locator('h1', { hasText: title }).waitFor();
      await solved(page);
      expect(await page.locator('.verdict').count()).toBeGreaterThan(0);
    }
    expect(complaints).toEqual([]);
  });
});
