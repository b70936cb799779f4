import { describe, expect, it } from 'vitest';
import { appOpener, readout, solved } from './browser.ts';

const open = appOpener();

describe('a verdict', () => {
  it('jumps to its moment when it is clicked, and brings the vehicle into sight', async () => {
    const { page } = await open();
    await page.keyboard.press('v');
    await page.locator('.verdict.fails').first().click();
    expect(await readout(page, 'time')).toBeGreaterThan(1);
    // The first verdict is about a wheel that lifts: the jump goes to where it is off the ground already.
    expect(await page.locator('.band-load').last().textContent()).toBe('0.0 N');
    const frame = await page.locator('[data-frame]').getAttribute('data-frame');
    await expect.poll(() => readout(page, 'frame')).toBe(Number(frame) + 1);
  });
});

describe('a figure', () => {
  it('that is changed drives the vehicle again and shows what that did', async () => {
    const { page, complaints } = await open();
    const before = await page.locator('.verdict .says').allTextContents();
    const pivot = page.getByLabel('middle-arm pivot x');
    expect(await pivot.inputValue()).toBe('-330 mm');
    await pivot.fill('-330-8');
    await pivot.press('Enter');
    expect(await pivot.inputValue()).toBe('-338 mm');
    await page.locator('.comparison', { hasText: /better|Same/ }).waitFor();
    await solved(page);
    expect(await page.locator('.verdict .says').allTextContents()).not.toEqual(before);
    expect(await page.locator('.verdict .was').count()).toBeGreaterThan(0);
    await page.getByRole('tab', { name: 'Changes' }).click();
    await page.locator('.changes li').nth(3).waitFor();
    expect(await page.getByText('run before', { exact: true }).count()).toBe(1);
    await page.keyboard.press('Control+z');
    await page.getByRole('tab', { name: 'Figures' }).click();
    expect(await pivot.inputValue()).toBe('-330 mm');
    await solved(page);
    expect(complaints).toEqual([]);
  });

  it('moves by arrow keys, ten times as far with Shift and a tenth with Alt', async () => {
    const { page } = await open();
    const pivot = page.getByLabel('middle-arm pivot z');
    await pivot.press('ArrowUp');
    expect(await pivot.inputValue()).toBe('78 mm');
    await pivot.press('Alt+ArrowDown');
    expect(await pivot.inputValue()).toBe('77.9 mm');
    await pivot.press('Shift+ArrowDown');
    expect(await pivot.inputValue()).toBe('67.9 mm');
    await pivot.press('Tab');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    expect(await pivot.inputValue()).toBe('77 mm');
  });

  it('moves by a drag on its label, which is one edit to take back', async () => {
    const { page } = await open();
    const field = page.getByLabel('middle-arm bump');
    const label = page.locator('.figure', { has: field }).locator('label');
    const box = await label.boundingBox();
    if (box === null) throw new Error('the label is not in sight');
    await page.mouse.move(box.x + 10, box.y + 10);
    await page.mouse.down();
    await page.mouse.move(box.x + 22, box.y + 10, { steps: 6 });
    await page.mouse.up();
    expect(await field.inputValue()).toBe('19 deg');
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    expect(await field.inputValue()).toBe('16 deg');
  });

  it('takes other units and says at once what it cannot take', async () => {
    const { page } = await open();
    const pivot = page.getByLabel('middle-arm pivot z');
    await pivot.fill('7.8 cm');
    await pivot.press('Enter');
    expect(await pivot.inputValue()).toBe('7.8 cm');
    await pivot.fill('7.8 kg');
    const problem = page.locator('.field-problem');
    await problem.waitFor();
    expect(await problem.textContent()).toContain('a length was wanted');
    expect(await pivot.getAttribute('aria-invalid')).toBe('true');
    await pivot.press('Escape');
    expect(await pivot.inputValue()).toBe('7.8 cm');
    expect(await problem.count()).toBe(0);
  });

  it('that makes no sense is told beside it, and the run on show stays', async () => {
    const { page } = await open();
    // An arm whose end lies on its pivot.
    await page.getByLabel('middle-arm end x').fill('-330 mm');
    await page.getByLabel('middle-arm end z').fill('77 mm');
    await page.getByLabel('middle-arm end z').press('Enter');
    await page.getByRole('alert', { name: 'Problems with the document' }).waitFor();
    expect(await page.locator('.row', { hasText: 'end' }).first().textContent()).toContain('no length');
    expect(await page.locator('.verdict').count()).toBe(5);
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    await page.getByRole('button', { name: 'Take the last edit back' }).click();
    await solved(page);
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('is compared with a kept run until that is let go', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    const pivot = page.getByLabel('middle-arm pivot x');
    for (const value of ['-334 mm', '-330 mm']) {
      await pivot.fill(value);
      await pivot.press('Enter');
      await solved(page);
    }
    expect(await page.locator('.comparison').textContent()).toContain('Same as the kept run');
    await page.getByRole('button', { name: 'Clear', exact: true }).click();
    expect(await page.locator('.comparison').textContent()).toContain('No run to compare with');
  });
});

describe('a long run', () => {
  it('shows how far it is, keeps the window alive, and is cancelled', async () => {
    const { page, complaints } = await open();
    await page.getByLabel('Find a figure').fill('run time');
    await page.getByRole('tab', { name: 'Figures' }).click();
    // A parked vehicle drives nowhere until its time is up: ten minutes of model time are seconds of work.
    await page.getByLabel('Find a figure').fill('speed');
    await page.getByLabel('Drive speed').fill('0 m/s');
    await page.getByLabel('Find a figure').fill('time');
    await page.getByLabel('Run time').fill('10 min');
    await page.getByLabel('Run time').press('Enter');
    const cancel = page.getByRole('button', { name: 'Cancel' });
    await cancel.waitFor();
    await expect
      .poll(
        async () =>
          Number(await page.getByRole('progressbar', { name: 'Run' }).getAttribute('aria-valuenow')),
        // However slow the machine is: the run lasts until it is cancelled, or for seconds of work.
        { timeout: 20_000 },
      )
      .toBeGreaterThan(0);
    const frame = await readout(page, 'frame');
    await page.getByLabel('Run time').blur();
    await page.keyboard.press('ArrowRight');
    expect(await readout(page, 'frame')).toBe(frame + 1);
    await cancel.click();
    await page.getByRole('button', { name: 'Drive again' }).waitFor();
    expect(await page.locator('.verdict').count()).toBe(5);
    await page.getByLabel('Run time').fill('1 s');
    await page.getByLabel('Run time').press('Enter');
    await solved(page);
    expect(complaints).toEqual([]);
  });
});

describe('a run that cannot be', () => {
  it('says why, keeps the last one on show, and goes on once that is mended', async () => {
    const { page, complaints } = await open();
    await page.getByLabel('Find a figure').fill('substep');
    await page.getByLabel('Run substep').fill('10 ms');
    await page.getByLabel('Run substep').press('Enter');
    await page.locator('.run-end').waitFor();
    expect((await page.locator('.run-end').textContent())?.length).toBeGreaterThan(30);
    expect(await page.locator('.verdict').count()).toBe(5);
    await page.getByLabel('Run substep').fill('');
    await page.getByLabel('Run substep').press('Enter');
    await solved(page);
    expect(await page.locator('.run-end').count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});
