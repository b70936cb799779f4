import { describe, expect, it } from 'vitest';
import { createSettingsStore, nextSpeed, settingsFrom, speeds } from '../../../src/store/settings.ts';

/** A place that keeps text, as a browser has one. */
function place(content: Record<string, string> = {}) {
  return {
    content,
    getItem: (key: string) => content[key] ?? null,
    setItem: (key: string, value: string) => {
      content[key] = value;
    },
    removeItem: (key: string) => {
      delete content[key];
    },
  };
}

describe('settings', () => {
  it('are found again at the next visit', () => {
    const kept = place();
    createSettingsStore(kept).setState({ theme: 'dark', axis: 'time', speed: 1 / 8 });
    expect(createSettingsStore(kept).getState()).toMatchObject({ theme: 'dark', axis: 'time', speed: 1 / 8 });
  });

  it('fall back one by one where what was kept is of no use', () => {
    const state = settingsFrom({ theme: 'mauve', axis: 'time', speed: '2', follow: true, stranger: 1 });
    expect(state).toMatchObject({ theme: 'system', axis: 'time', speed: 1, follow: true });
    expect(state).not.toHaveProperty('stranger');
    expect(settingsFrom('nonsense').theme).toBe('system');
  });

  it('do without a place to be kept in', () => {
    const store = createSettingsStore(undefined);
    store.setState({ theme: 'light' });
    expect(store.getState().theme).toBe('light');
  });

  it('hold in this window where the place is full or what it kept cannot be read', () => {
    const full = {
      ...place({ 'axlewright-settings': '{"state":' }),
      setItem: () => {
        throw new DOMException('no room', 'QuotaExceededError');
      },
    };
    const store = createSettingsStore(full);
    expect(() => store.setState({ theme: 'dark' })).not.toThrow();
    expect(store.getState()).toMatchObject({ theme: 'dark', speed: 1 });
  });

  it('step through the playing speeds and stop at the ends', () => {
    expect(speeds.map((speed) => nextSpeed(speed, 1))).toEqual([1 / 4, 1 / 2, 1, 2, 4, 4]);
    expect(nextSpeed(1 / 8, -1)).toBe(1 / 8);
  });
});
