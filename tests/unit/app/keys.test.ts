import { describe, expect, it } from 'vitest';
import { keyTable, spell } from '../../../src/app/keys.ts';

const press = (
  key: string,
  held: Partial<Record<'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey', boolean>> = {},
) => spell({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...held });

describe('a key', () => {
  it('is spelt as in the table, whatever the keyboard', () => {
    expect(press('n')).toBe('n');
    expect(press('N', { shiftKey: true })).toBe('n');
    expect(press('?', { shiftKey: true })).toBe('?');
    expect(press('ArrowRight', { shiftKey: true })).toBe('Shift+ArrowRight');
    expect(press('s', { metaKey: true })).toBe('Ctrl+s');
    expect(press('Z', { ctrlKey: true, shiftKey: true })).toBe('Ctrl+Shift+z');
    expect(press('n', { altKey: true })).toBe('Alt+n');
  });

  it('does one thing only', () => {
    const keys = keyTable.flatMap((row) => row.keys);
    expect(new Set(keys).size).toBe(keys.length);
  });
});
