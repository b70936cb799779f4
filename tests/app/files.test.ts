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

  it('opened twice without an edit is kept once', async () => {
    const { page } = await open();
    for (let i = 0; i < 2; i += 1) {
      await dropFile(page, 'tarn.json', tarn);
      await page.locator('h1', { hasText: 'Tarn' }).waitFor();
      await page.locator('.edited[data-kept="true"]').waitFor({ state: 'attached' });
    }
    await page.getByRole('button', { name: 'Documents' }).click();
    await page.locator('.document').first().waitFor();
    expect(await page.locator('.document').count()).toBe(1);
  });
});

/** Gives the page pickers that answer with a file of its own private file system, as a system's dialog would. */
function withPickers(): void {
  const file = async (create: boolean) =>
    (await navigator.storage.getDirectory()).getFileHandle('from-disk.json', { create });
  const asked = { save: 0 };
  Object.assign(window, {
    asked,
    showOpenFilePicker: async () => [await file(false)],
    showSaveFilePicker: async () => {
      asked.save += 1;
      return file(true);
    },
  });
}

describe('a file on the disk', () => {
  const onDisk = (page: Page) =>
    page.evaluate(async () => {
      const folder = await navigator.storage.getDirectory();
      const file = await (await folder.getFileHandle('from-disk.json')).getFile();
      return new TextDecoder('utf-8', { ignoreBOM: true }).decode(await file.arrayBuffer());
    });
  const putOnDisk = (page: Page, text: string) =>
    page.evaluate(async (content) => {
      const folder = await navigator.storage.getDirectory();
      const stream = await (await folder.getFileHandle('from-disk.json', { create: true })).createWritable();
      await stream.write(content);
      await stream.close();
    }, text);
  const timesAsked = (page: Page) =>
    page.evaluate(() => (window as unknown as { asked: { save: number } }).asked.save);
  const saved = (page: Page) => page.locator('.toast', { hasText: 'Saved in from-disk.json' }).waitFor();

  it('is written back by Ctrl+S, byte for byte when nothing changed, also after a reload', async () => {
    const { page, complaints } = await open({ before: withPickers });
    const odd = `\uFEFF${tarn.replaceAll('\n', '\r\n')}\r\n`;
    await putOnDisk(page, odd);
    await page.keyboard.press('Control+o');
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await solved(page);
    await page.keyboard.press('Control+s');
    await saved(page);
    expect(await onDisk(page)).toBe(odd);
    await page.locator('.edited[data-kept="true"]').waitFor({ state: 'attached' });
    await page.reload();
    await solved(page);
    await page.getByRole('button', { name: 'Save' }).click();
    await saved(page);
    expect(await onDisk(page)).toBe(odd);
    expect(await timesAsked(page)).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('that somebody else has changed meanwhile is not written over without a yes', async () => {
    const { page } = await open({ before: withPickers });
    await putOnDisk(page, tarn);
    await page.keyboard.press('Control+o');
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await solved(page);
    await putOnDisk(page, '{"theirs": true}');
    await page.keyboard.press('Control+s');
    const question = page.getByRole('dialog', { name: /changed on the disk/ });
    await question.getByRole('button', { name: 'Stay here' }).click();
    expect(await onDisk(page)).toBe('{"theirs": true}');
    await page.keyboard.press('Control+s');
    await question.getByRole('button', { name: 'Write over it' }).click();
    await saved(page);
    expect(await onDisk(page)).toBe(tarn);
  });

  it('is asked for by Ctrl+Shift+S, and by the first Ctrl+S of a demo', async () => {
    const { page } = await open({ before: withPickers });
    await page.keyboard.press('Control+s');
    await saved(page);
    expect(await onDisk(page)).toBe(shippedText('corrie-6x6.json'));
    await page.keyboard.press('Control+s');
    await page.waitForTimeout(300);
    expect(await timesAsked(page)).toBe(1);
    await page.keyboard.press('Control+Shift+S');
    await expect.poll(() => timesAsked(page)).toBe(2);
  });
});

describe('a link', () => {
  const copied = async (page: Page): Promise<string> => {
    await page.keyboard.press('l');
    await page.locator('.toast', { hasText: 'Link copied' }).waitFor();
    return page.evaluate(() => navigator.clipboard.readText());
  };
  const permissions = ['clipboard-read', 'clipboard-write'];

  it('opens the same scenario as a copy elsewhere, and no server sees it', async () => {
    const { page } = await open({ permissions });
    await page.getByLabel('middle-arm pivot x').fill('-337 mm');
    await page.getByLabel('middle-arm pivot x').press('Enter');
    await page.locator('h1').click();
    const address = await copied(page);
    expect(address.length).toBeLessThan(5000);
    const other = await open();
    const asked: string[] = [];
    other.page.on('request', (request) => asked.push(request.url()));
    await other.page.goto('about:blank');
    await other.page.goto(address);
    await solved(other.page);
    expect(await other.page.getByLabel('middle-arm pivot x').inputValue()).toBe('-337 mm');
    expect(await other.page.evaluate(() => location.hash)).toBe('');
    expect(asked.some((url) => url.split('#')[0]?.includes('scenario='))).toBe(false);
    await other.page.locator('.edited[data-kept="true"]').waitFor({ state: 'attached' });
    await other.page.reload();
    await solved(other.page);
    expect(await other.page.getByLabel('middle-arm pivot x').inputValue()).toBe('-337 mm');
    // What was still on its way when the page went to another address was broken off.
    expect(other.complaints.filter((said) => !said.startsWith('request failed'))).toEqual([]);
  });

  it.each([
    ['cut off', '#scenario=7VfNbhoxEL7zFNZeC'],
    ['no scenario at all', '#scenario=q0rMTVWyUkpMSlaqBQA'],
  ])('that is %s says so and changes nothing', async (_name, fragment) => {
    const { page, complaints } = await open();
    const before = await titleOf(page);
    await page.evaluate((hash) => {
      location.hash = hash;
    }, fragment);
    const refused = page.getByRole('alert', { name: 'File not opened' });
    await refused.waitFor();
    expect(await refused.textContent()).toMatch(/link is broken|link/i);
    expect(await titleOf(page)).toBe(before);
    expect(await page.evaluate(() => location.hash)).toBe('');
    expect(complaints).toEqual([]);
  });

  it('that is broken does not keep the window from opening', async () => {
    const { page, complaints } = await open({ path: '#scenario=AAAA' });
    await page.getByRole('alert', { name: 'File not opened' }).waitFor();
    expect(await titleOf(page)).toContain('Corrie');
    expect(complaints).toEqual([]);
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
