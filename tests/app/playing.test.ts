import { describe, expect, it } from 'vitest';
import { appOpener, readout } from './browser.ts';

const open = appOpener();

describe('the timeline', () => {
  it('plays and pauses by the space bar', async () => {
    const { page, complaints } = await open();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await expect.poll(() => readout(page, 'frame')).toBeGreaterThan(20);
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Play' }).waitFor();
    const frame = await readout(page, 'frame');
    await page.waitForTimeout(200);
    expect(await readout(page, 'frame')).toBe(frame);
    expect(complaints).toEqual([]);
  });

  it('steps by frames, by ten, and to the ends', async () => {
    const { page } = await open();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    expect(await readout(page, 'frame')).toBe(2);
    await page.keyboard.press('Shift+ArrowRight');
    expect(await readout(page, 'frame')).toBe(12);
    await page.keyboard.press('End');
    const last = await readout(page, 'frame');
    expect(last).toBeGreaterThan(1000);
    await page.keyboard.press('ArrowRight');
    expect(await readout(page, 'frame')).toBe(last);
    await page.keyboard.press('Home');
    expect(await readout(page, 'frame')).toBe(1);
    expect(await readout(page, 'time')).toBe(0);
  });

  it('jumps from event to event and says which one is next', async () => {
    const { page } = await open();
    const next = page.locator('.next-event');
    const first = await next.textContent();
    await page.keyboard.press('n');
    const there = await readout(page, 'frame');
    expect(there).toBeGreaterThan(1);
    expect(await next.textContent()).not.toBe(first);
    await page.keyboard.press('n');
    await page.keyboard.press('p');
    expect(await readout(page, 'frame')).toBe(there);
  });

  it('is scrubbed by the mouse, and says where it is to a screen reader', async () => {
    const { page } = await open();
    const track = page.getByRole('slider', { name: 'Moment of the run' });
    const box = await track.boundingBox();
    if (box === null) throw new Error('the track is not in sight');
    await page.mouse.move(box.x + box.width * 0.25, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.5, box.y + box.height / 2, { steps: 5 });
    await page.mouse.up();
    const last = Number(await track.getAttribute('aria-valuemax'));
    // Half the way, to a pixel: a pixel of the track is a few frames.
    expect(Math.abs(Number(await track.getAttribute('aria-valuenow')) - last / 2)).toBeLessThan(
      1 + (2 * last) / box.width,
    );
    expect(await track.getAttribute('aria-valuetext')).toMatch(/s, station .* mm/);
  });

  it('plays slower and faster, and keeps that for the next visit', async () => {
    const { page } = await open();
    const speed = page.getByRole('combobox', { name: 'Speed' });
    await page.keyboard.press('[');
    expect(await speed.inputValue()).toBe('0.5');
    await page.reload();
    expect(await page.getByRole('combobox', { name: 'Speed' }).inputValue()).toBe('0.5');
  });

  it('ends at the last frame and begins again from the first', async () => {
    const { page } = await open();
    await page.getByRole('combobox', { name: 'Speed' }).selectOption('4');
    await page.keyboard.press('End');
    await page.keyboard.press('Shift+ArrowLeft');
    await page.locator('body').press('Space');
    await page.getByRole('button', { name: 'Play' }).waitFor();
    await page.getByRole('button', { name: 'Play' }).click();
    await page.getByRole('button', { name: 'Pause' }).click();
    expect(await readout(page, 'time')).toBeLessThan(5);
  });
});

describe('the keys', () => {
  it('are listed by ?, and single letters can be switched off', async () => {
    const { page } = await open();
    await page.keyboard.press('?');
    const sheet = page.getByRole('region', { name: 'Keys' });
    await sheet.waitFor();
    expect(await sheet.locator('kbd').count()).toBeGreaterThan(20);
    await page.getByLabel('Single letters work as keys').uncheck();
    await page.getByRole('button', { name: 'Close the list of keys' }).click();
    await page.keyboard.press('n');
    expect(await readout(page, 'frame')).toBe(1);
    await page.keyboard.press('ArrowRight');
    expect(await readout(page, 'frame')).toBe(2);
  });

  it('close with Escape what is open', async () => {
    const { page } = await open();
    await page.keyboard.press('?');
    const sheet = page.getByRole('region', { name: 'Keys' });
    await sheet.waitFor();
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Demos' }).click();
    const menu = page.getByRole('navigation', { name: 'Demos' });
    await menu.waitFor();
    await page.keyboard.press('Escape');
    await menu.waitFor({ state: 'hidden' });
  });

  it('leave a figure alone while it is being typed into', async () => {
    const { page } = await open();
    const field = page.getByLabel('Find a figure');
    await field.fill('');
    await field.pressSequentially('n v x ?');
    expect(await field.inputValue()).toBe('n v x ?');
    expect(await readout(page, 'frame')).toBe(1);
    expect(await page.getByRole('region', { name: 'Keys' }).count()).toBe(0);
  });

  it('still work after a switch of the header was clicked, whose own arrow keys stay its own', async () => {
    const { page } = await open();
    await page.getByRole('radio', { name: 'Time' }).click();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: 'Play' }).waitFor();
    await page.keyboard.press('Home');
    await page.keyboard.press('n');
    expect(await readout(page, 'frame')).toBeGreaterThan(1);
    await page.keyboard.press('ArrowLeft');
    expect(await page.getByRole('radio', { name: 'Station' }).isChecked()).toBe(true);
  });

  it('reach everything: Tab goes through header, timeline and answers with a visible focus', async () => {
    const { page } = await open();
    const seen = new Set<string>();
    for (let i = 0; i < 45; i += 1) {
      await page.keyboard.press('Tab');
      const focus = await page.evaluate(() => {
        const element = document.activeElement;
        if (!(element instanceof HTMLElement) || element === document.body) return undefined;
        const styled = element.matches('input[type=radio]') ? element.nextElementSibling : element;
        const { outlineStyle, outlineWidth } = getComputedStyle(styled ?? element);
        const place = element.closest(
          'header, .picture, .record, .timeline, .verdicts, .tabs, .panel',
        )?.className;
        return {
          place: String(place).split(' ')[0],
          outlined: outlineStyle !== 'none' && outlineWidth !== '0px',
        };
      });
      if (focus === undefined) continue;
      expect(focus).toMatchObject({ outlined: true });
      seen.add(focus.place ?? '');
    }
    for (const place of ['header', 'picture', 'record', 'timeline', 'verdicts', 'tabs', 'panel']) {
      expect([...seen]).toContain(place);
    }
  });
});
