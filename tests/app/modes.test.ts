import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener, readout, solved } from './browser.ts';

const open = appOpener();

/** Opens the app in a mode, by its key. */
async function openIn(key: '1' | '2') {
  const opened = await open();
  await opened.page.keyboard.press(key);
  if (key === '2') await crawled(opened.page);
  else await opened.page.locator('.standing[data-stale="false"] tbody tr').first().waitFor();
  return opened;
}

/** Waits for the crossing of the document as it stands. */
async function crawled(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'Crawl' }).and(page.locator(':checked')).waitFor();
  await solved(page);
}

const undo = (page: Page) => page.getByRole('button', { name: 'Take the last edit back' });
const pivotX = (page: Page) => page.getByLabel('middle-arm pivot x');
const firstVerdict = (page: Page) => page.locator('.verdict .value').first();

/** The bands as they are painted. */
const bands = (page: Page) =>
  page
    .locator('.record canvas')
    .first()
    .evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());

/** Middle of the handle of the bogie pivot, brought close. */
async function handle(page: Page) {
  await page.keyboard.press('v');
  const knob = page.getByRole('group', { name: 'middle-arm and rear-arm: pivot' });
  const box = await knob.locator('.handle-target').boundingBox();
  if (box === null) throw new Error('the handle is not in sight');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

describe('the switch', () => {
  it('crosses the ground in balance with a verdict for each criterion, and goes back to the drive at once', async () => {
    const { page, complaints } = await open();
    const driven = await firstVerdict(page).textContent();
    await page.getByRole('radio', { name: 'Crawl' }).check();
    await crawled(page);
    expect(await page.locator('.verdict').count()).toBe(5);
    expect(await firstVerdict(page).textContent()).not.toBe(driven);
    await page.keyboard.press('Tab');
    await page.locator('.picture').click({ position: { x: 300, y: 60 } });
    await page.keyboard.press('3');
    await solved(page);
    expect(await firstVerdict(page).textContent()).toBe(driven);
    expect(complaints).toEqual([]);
  });

  it('plays a crossing by its time, although its stations are uneven', async () => {
    const { page } = await openIn('2');
    await page.keyboard.press('End');
    expect(await readout(page, 'time')).toBeGreaterThan(5);
    await page.keyboard.press('Home');
    await page.getByRole('button', { name: 'Play' }).click();
    await expect.poll(() => readout(page, 'time')).toBeGreaterThan(0.2);
    await page.getByRole('button', { name: 'Pause' }).click();
    // 0.2 m/s from station 450 mm on: the flagship's target speed.
    const [time, station] = [await readout(page, 'time'), await readout(page, 'station')];
    expect(Math.abs(station - (450 + 200 * time))).toBeLessThan(1);
  });

  it('shows the standing loads, which make up the weight', async () => {
    const { page, complaints } = await openIn('1');
    const cells = await page.locator('.standing tbody tr td:nth-child(2)').allTextContents();
    const sum = cells.reduce((total, cell) => total + Number(cell), 0);
    // 6.0 kg on three lines, each rounded to 0.1 N.
    const mass = 2.2 + 0.6 + 1.1 + 0.35 + 0.35 + 4 * 0.03 + 2 * 0.19 + 6 * 0.15;
    expect(Math.abs(sum - 9.80665 * mass)).toBeLessThan(0.2);
    expect(await page.locator('.standing').textContent()).toContain('Nothing rests on a stop');
    expect(complaints).toEqual([]);
  });

  it.each(['1', '2'] as const)('leaves nothing that axe would find wrong in mode %s', async (key) => {
    const { page } = await openIn(key);
    expect(await violations(page)).toEqual([]);
  });

  it('answers a changed figure in a crossing without being asked', async () => {
    const { page } = await openIn('2');
    const before = await firstVerdict(page).textContent();
    await pivotX(page).fill('-334 mm');
    await pivotX(page).press('Enter');
    await expect.poll(() => firstVerdict(page).textContent()).not.toBe(before);
    await crawled(page);
  });
});

describe('a pivot that is dragged with the mouse', () => {
  it('changes bands and verdicts while it is held, and is one edit when it is let go', async () => {
    const { page, complaints } = await openIn('2');
    const at = await handle(page);
    const before = { verdict: await firstVerdict(page).textContent(), bands: await bands(page) };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 12, at.y, { steps: 6 });
    await expect.poll(() => firstVerdict(page).textContent()).not.toBe(before.verdict);
    expect(await bands(page)).not.toBe(before.bands);
    expect(await undo(page).isEnabled()).toBe(false);
    expect(await pivotX(page).inputValue()).toBe('-330 mm');
    await page.mouse.up();
    await expect.poll(() => pivotX(page).inputValue()).not.toBe('-330 mm');
    expect(await page.getByLabel('rear-arm pivot x').count()).toBeLessThan(2);
    await undo(page).click();
    expect(await pivotX(page).inputValue()).toBe('-330 mm');
    expect(await undo(page).isEnabled()).toBe(false);
    await crawled(page);
    expect(await firstVerdict(page).textContent()).toBe(before.verdict);
    expect(complaints).toEqual([]);
  });

  it('is put back by Escape', async () => {
    const { page } = await openIn('2');
    const at = await handle(page);
    const before = await firstVerdict(page).textContent();
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 12, at.y, { steps: 6 });
    await expect.poll(() => firstVerdict(page).textContent()).not.toBe(before);
    await page.keyboard.press('Escape');
    await expect.poll(() => firstVerdict(page).textContent()).toBe(before);
    await page.mouse.up();
    expect(await undo(page).isEnabled()).toBe(false);
  });

  it('says why it cannot be outside its beam, and keeps the last answer', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: 'Demos' }).click();
    await page.locator('.menu-item', { hasText: 'tarn-8x8.json' }).click();
    await page.locator('h1', { hasText: 'Tarn' }).waitFor();
    await page.keyboard.press('2');
    await crawled(page);
    await page.keyboard.press('v');
    const box = await page
      .getByRole('group', { name: 'front-bogie: pivot' })
      .locator('.handle-target')
      .boundingBox();
    if (box === null) throw new Error('the handle is not in sight');
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 200, at.y, { steps: 10 });
    await page.getByText('lies outside the ends of its beam').first().waitFor();
    expect(await page.locator('.verdict').count()).toBe(5);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await undo(page).isEnabled()).toBe(false);
  });
});

describe('a pivot that is moved by keys', () => {
  it('is answered for at each step, kept by Enter as one edit', async () => {
    const { page } = await openIn('2');
    const slider = page.getByRole('slider', { name: 'middle-arm and rear-arm: pivot, forward' });
    const before = await firstVerdict(page).textContent();
    await slider.focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowRight');
    await expect.poll(() => firstVerdict(page).textContent()).not.toBe(before);
    expect(await undo(page).isEnabled()).toBe(false);
    await page.keyboard.press('Enter');
    await expect.poll(() => undo(page).isEnabled()).toBe(true);
    // Four steps of half a millimetre.
    expect(await pivotX(page).inputValue()).toBe('-328 mm');
    await undo(page).click();
    expect(await pivotX(page).inputValue()).toBe('-330 mm');
    expect(await undo(page).isEnabled()).toBe(false);
  });

  it('is put back by Escape', async () => {
    const { page } = await openIn('2');
    const before = await firstVerdict(page).textContent();
    await page.getByRole('slider', { name: 'middle-arm and rear-arm: pivot, up' }).focus();
    await page.keyboard.press('Shift+ArrowUp');
    await expect.poll(() => firstVerdict(page).textContent()).not.toBe(before);
    await page.keyboard.press('Escape');
    await expect.poll(() => firstVerdict(page).textContent()).toBe(before);
    expect(await undo(page).isEnabled()).toBe(false);
  });
});

describe('what is found on demand', () => {
  it('lists what matters most, and leads to the figure', async () => {
    const { page, complaints } = await openIn('2');
    await page.getByRole('tab', { name: 'Matters' }).click();
    await page.getByRole('button', { name: 'Find what matters' }).click();
    const rows = page.locator('.influence');
    await rows.first().waitFor();
    expect(await rows.count()).toBeGreaterThan(10);
    expect(await violations(page)).toEqual([]);
    const bar = page.locator('.influence', { hasText: 'torsion bars' }).first();
    await bar.click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-path')))
      .toContain('vehicle.elements');
    expect(complaints).toEqual([]);
  });

  it('shows a map of the pivot on the vehicle, and takes its best place as one edit', async () => {
    const { page, complaints } = await openIn('2');
    await page.getByRole('tab', { name: 'Matters' }).click();
    await page.getByRole('button', { name: 'Show on the vehicle' }).click();
    await page.getByRole('button', { name: 'Take it' }).click();
    expect(await undo(page).isEnabled()).toBe(true);
    await page.getByRole('button', { name: 'Take away' }).click();
    expect(await page.getByRole('progressbar', { name: 'Map' }).count()).toBe(0);
    await undo(page).click();
    expect(await undo(page).isEnabled()).toBe(false);
    expect(complaints).toEqual([]);
  });

  it('shows the limit of every kind of obstacle with what stops it there, and its curves can be called off', async () => {
    const { page, complaints } = await openIn('2');
    await page.getByRole('tab', { name: 'Limits' }).click();
    await page.getByRole('button', { name: 'Find the limits' }).click();
    const rows = page.locator('.figures.limits tbody tr');
    await rows.first().waitFor();
    expect(await rows.count()).toBe(6);
    expect(await rows.first().textContent()).toMatch(/Step up.*mm.*40 mm/);
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Curves over grip and mass' }).click();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByRole('button', { name: 'Curves over grip and mass' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('lists the largest forces in joints, and draws them', async () => {
    const { page, complaints } = await openIn('2');
    await page.getByRole('tab', { name: 'Joints' }).click();
    await page.locator('.joint').first().waitFor();
    const text = await page.locator('.joints').textContent();
    for (const word of ['Pins', 'Rods', 'Arms', 'twist', 'stress', 'bending', 'shear'])
      expect(text).toContain(word);
    await page.getByLabel('Draw them on the vehicle').check();
    await page.locator('.scene-legend', { hasText: 'pull' }).waitFor();
    await page.locator('.joint .jump').first().click();
    expect(await readout(page, 'frame')).toBeGreaterThan(1);
    expect(complaints).toEqual([]);
  });
});
