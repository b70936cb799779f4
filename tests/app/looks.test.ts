import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { appOpener, dropFile } from './browser.ts';
import { longVehicle } from './documents.ts';

const open = appOpener();
/** Things that stick out of the window or that are cut off without saying so by an ellipsis or a scroll bar. */
async function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const faults: string[] = [];
    const { clientWidth, clientHeight, scrollWidth, scrollHeight } = document.documentElement;
    if (scrollWidth > clientWidth || scrollHeight > clientHeight) faults.push('the page scrolls');
    for (const element of document.querySelectorAll<HTMLElement>('header *, .timeline *, .side *')) {
      const { overflowX, overflowY, textOverflow, position, clipPath } = getComputedStyle(element);
      if (clipPath !== 'none' || element.closest('.unseen, [hidden], [popover]') !== null) continue;
      const name = `${element.tagName.toLowerCase()}.${element.className} "${element.textContent?.slice(0, 30)}"`;
      const box = element.getBoundingClientRect();
      if (box.width === 0) continue;
      if (box.left < -1 || box.right > clientWidth + 1) faults.push(`${name} leaves the window sideways`);
      const wide = element.scrollWidth > element.clientWidth + 1;
      const inline = getComputedStyle(element).display.startsWith('inline');
      if (wide && !inline && overflowX === 'hidden' && textOverflow !== 'ellipsis')
        faults.push(`${name} is cut off`);
      if (wide && !inline && overflowX === 'visible' && position !== 'absolute')
        faults.push(`${name} spills over`);
      if (
        overflowY === 'hidden' &&
        element.scrollHeight > element.clientHeight + 1 &&
        textOverflow !== 'ellipsis'
      )
        faults.push(`${name} is cut off below`);
    }
    return faults;
  });
}

/** Boxes of the main parts of the window must not lie over each other. */
async function overlaps(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const parts = [
      '.header',
      '.picture',
      '.record',
      '.timeline',
      '.verdicts',
      '.comparison',
      '.tabs',
      '.panels',
    ];
    const boxes = parts.map((part) => [part, document.querySelector(part)?.getBoundingClientRect()] as const);
    return boxes.flatMap(([a, p], i) =>
      boxes.slice(i + 1).flatMap(([b, q]) => {
        if (p === undefined || q === undefined) return [`${a} or ${b} is missing`];
        const across = Math.min(p.right, q.right) - Math.max(p.left, q.left);
        const down = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
        return across > 1 && down > 1 ? [`${a} lies over ${b}`] : [];
      }),
    );
  });
}

const sizes = [
  { width: 1024, height: 700 },
  { width: 1440, height: 900 },
  { width: 2560, height: 1440 },
  { width: 3840, height: 2160 },
];

describe('the looks', () => {
  it.each(['light', 'dark'] as const)(
    'in %s have nothing that axe would find wrong, on any panel',
    async (colorScheme) => {
      const { page } = await open({ colorScheme });
      expect(await page.locator('html').getAttribute('data-theme')).toBe(colorScheme);
      for (const name of [
        'Figures',
        'Matters',
        'Limits',
        'Joints',
        'Ledger',
        'Winch and steering',
        'Changes',
        'Events',
        'Measures',
        'Notes',
      ]) {
        await page.getByRole('tab', { name }).click();
        await page.locator('.panel:not([hidden]) > *').first().waitFor();
        expect(await violations(page)).toEqual([]);
      }
      await dropFile(page, 'broken.json', '{}');
      await page.keyboard.press('?');
      await page.getByRole('region', { name: 'Keys' }).waitFor();
      expect(await violations(page)).toEqual([]);
    },
  );

  it('follow the system until a theme is chosen, which is kept', async () => {
    const { page } = await open({ colorScheme: 'light' });
    const theme = page.locator('html');
    const paper = () =>
      page.evaluate(() => getComputedStyle(document.body.parentElement as Element).backgroundColor);
    const light = await paper();
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(() => theme.getAttribute('data-theme')).toBe('dark');
    expect(await paper()).not.toBe(light);
    await page.getByRole('button', { name: /Theme/ }).click();
    await expect.poll(() => theme.getAttribute('data-theme')).toBe('light');
    await page.reload();
    await expect.poll(() => theme.getAttribute('data-theme')).toBe('light');
  });

  it.each(sizes)('fit into $width × $height with the flagship', async (viewport) => {
    const { page } = await open({ viewport });
    for (const name of [
      'Figures',
      'Matters',
      'Limits',
      'Joints',
      'Ledger',
      'Winch and steering',
      'Events',
      'Measures',
      'Notes',
    ]) {
      await page.getByRole('tab', { name }).click();
      await page.locator('.panel:not([hidden]) > *').first().waitFor();
      expect(await cutOff(page)).toEqual([]);
    }
    expect(await overlaps(page)).toEqual([]);
  });

  it.each(sizes)(
    'fit into $width × $height with sixteen axle lines, longest names and forty verdicts',
    async (viewport) => {
      const { page, complaints } = await open({ viewport });
      await dropFile(page, `${'long-name-'.repeat(12)}.json`, longVehicle());
      await page.locator('.verdict').nth(39).waitFor();
      await page.getByLabel('Find a figure').fill('axle 16');
      expect([...(await cutOff(page)), ...(await overlaps(page))]).toEqual([]);
      await page.getByRole('tab', { name: 'Measures' }).click();
      await page.locator('.measure').first().waitFor();
      expect(await cutOff(page)).toEqual([]);
      expect(complaints).toEqual([]);
    },
  );

  it.each([0, 1])('are in order with %i verdicts', async (count) => {
    const { page } = await open({ viewport: { width: 1024, height: 700 } });
    await dropFile(page, 'few.json', longVehicle(count));
    await page.locator('h1', { hasText: 'Sixteen' }).waitFor();
    await page.locator('.run-status[data-phase="idle"] .words', { hasText: 'ms' }).waitFor();
    expect(await page.locator('.verdict').count()).toBe(count);
    expect([...(await cutOff(page)), ...(await overlaps(page))]).toEqual([]);
  });

  it('stay where they are while the vehicle is played', async () => {
    const { page } = await open();
    const places = () =>
      page.evaluate(() =>
        [...document.querySelectorAll('.timeline *, .side *, .header *, .picture, .record')]
          .filter((element) => element.closest('.track, .next-event, .progress') === null)
          // To half a pixel: text is laid out in 64ths.
          .map((element) => {
            const { x, y, width, height } = element.getBoundingClientRect();
            return [x, y, width, height].map((place) => Math.round(place * 2) / 2).join(' ');
          }),
      );
    const before = await places();
    for (const key of ['n', 'n', 'n', 'End', 'ArrowLeft']) {
      await page.keyboard.press(key);
      expect(await places()).toEqual(before);
    }
  });
});
