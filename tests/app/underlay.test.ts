import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener } from './browser.ts';

const open = appOpener();
const pictures = fileURLToPath(new URL('./__screenshots__', import.meta.url));

/** A picture of 800 × 350 px with two wheels 400 px apart, drawn by the page itself. Invented. */
async function drawn(page: Page): Promise<Buffer> {
  const address = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [800, 350];
    const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
    pen.fillStyle = '#c8d7e6';
    pen.fillRect(0, 0, 800, 350);
    pen.fillStyle = '#50643c';
    pen.fillRect(120, 90, 560, 130);
    pen.fillStyle = '#222';
    for (const x of [200, 600]) {
      pen.beginPath();
      pen.arc(x, 250, 50, 0, 7);
      pen.fill();
    }
    return canvas.toDataURL('image/png');
  });
  return Buffer.from(address.split(',')[1] as string, 'base64');
}

async function build(page: Page): Promise<void> {
  await page.keyboard.press('b');
  await page.getByRole('button', { name: 'Picture', exact: true }).click();
}

const choose = async (page: Page, buffer: Buffer, mimeType = 'image/png'): Promise<void> =>
  page.locator('.underlay-card input[type=file]').setInputFiles({ name: 'truck.png', mimeType, buffer });

const figure = (page: Page, name: string) => page.locator('.underlay-card').getByLabel(name);

/** Where a spot of the picture (px of it) is on the window. */
async function spot(page: Page, x: number, y: number): Promise<{ x: number; y: number }> {
  const box = await page.locator('img.underlay').boundingBox();
  if (box === null) throw new Error('no picture under the drawing');
  return { x: box.x + (box.width * x) / 800, y: box.y + (box.height * y) / 350 };
}

async function clickSpot(page: Page, x: number, y: number): Promise<void> {
  const at = await spot(page, x, y);
  await page.mouse.click(at.x, at.y);
}

describe('a picture under the drawing', () => {
  it('is scaled by two points of a known distance on the full-size vehicle, and traced over', async () => {
    const { page, complaints } = await open();
    await build(page);
    await choose(page, await drawn(page));
    await page.locator('img.underlay[style*="scale"]').waitFor();
    await page.getByRole('button', { name: 'Scale by two points' }).click();
    await clickSpot(page, 200, 250);
    await clickSpot(page, 600, 250);
    // 3.2 m on the full-size vehicle are 200 mm at 1:16, so 800 px are 400 mm; clicks fall on whole pixels
    await page.keyboard.type('3.2 m');
    await page.keyboard.press('Enter');
    const width = Number.parseFloat(await figure(page, 'Width').inputValue());
    expect(width).toBeGreaterThan(397);
    expect(width).toBeLessThan(403);
    mkdirSync(pictures, { recursive: true });
    await page.screenshot({ path: `${pictures}/picture.png` });
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    // one step back is the scale, another the picture
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await page.locator('img.underlay').waitFor({ state: 'detached' });
  });

  it('moves by hand while it is loose, as one step, and stays when it is locked', async () => {
    const { page } = await open();
    await build(page);
    await choose(page, await drawn(page));
    await page.locator('img.underlay[style*="scale"]').waitFor();
    const before = await figure(page, 'Middle x').inputValue();
    const from = await spot(page, 420, 40);
    const drag = async (): Promise<void> => {
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(from.x + 40, from.y - 10, { steps: 5 });
      await page.mouse.up();
    };
    await drag();
    const moved = await figure(page, 'Middle x').inputValue();
    expect(moved).not.toBe(before);
    await page.getByLabel('Lock it where it is').check();
    await drag();
    expect(await figure(page, 'Middle x').inputValue()).toBe(moved);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await page.getByRole('button', { name: 'Picture', exact: true }).click();
    expect(await figure(page, 'Middle x').inputValue()).toBe(before);
  });

  it('that is damaged, or no picture at all, is refused with the reason and changes nothing', async () => {
    const { page } = await open();
    await build(page);
    await choose(page, Buffer.from('this is no picture'), 'image/png');
    await page.getByText('cannot be read as a picture').waitFor();
    await choose(page, Buffer.from('GIF89a'), 'image/gif');
    await page.getByText('PNG, JPEG or WebP were wanted').waitFor();
    expect(await page.locator('img.underlay').count()).toBe(0);
  });
});
