import { createJSONStorage, persist } from 'zustand/middleware';
import { createStore } from 'zustand/vanilla';
import type { UnitSystem } from '../../shared/units.ts';
import { type Mode, modes } from '../runs/mode.ts';

/** Playing speeds, as parts of model time. */
export const speeds = [1 / 8, 1 / 4, 1 / 2, 1, 2, 4] as const;

/** What the person at the window likes; kept between visits. */
export interface Settings {
  readonly theme: 'system' | 'light' | 'dark';
  /** How the vehicle is looked at. */
  readonly mode: Mode;
  /** The vehicle is shown as it is drawn, to be built and changed; `mode` waits. */
  readonly building: boolean;
  /** Pitch that points snap to while building: a length with its unit; empty for none. */
  readonly pitch: string;
  /** What the picture's arrows show: what the ground does, or what joints and members carry too. */
  readonly forces: 'wheels' | 'joints';
  /** What 'What matters most' and maps look at: a measure, or 'criteria[0]'. */
  readonly measure: string;
  /** What bands and strips run over. */
  readonly axis: 'station' | 'time';
  /** The picture moves with the vehicle. */
  readonly follow: boolean;
  readonly speed: (typeof speeds)[number];
  /** Single keys without Ctrl work as shortcuts. */
  readonly singleKeys: boolean;
  /** The panel that is open beside the picture. */
  readonly panel: string;
  /** The drive line is drawn under the picture. */
  readonly driveLine: boolean;
  /** In which units figures are shown; the document keeps those that it is written in. */
  readonly units: UnitSystem;
  /** A model's figures are shown scaled up to full size. */
  readonly fullSize: boolean;
  /** Lines beside loads, travel and pitch, 'gripUse:rear' each, by the name of the vehicle that they were added for. */
  readonly lines: Readonly<Record<string, readonly string[]>>;
}

const DEFAULTS: Settings = {
  theme: 'system',
  mode: 'drive',
  building: false,
  pitch: '1 mm',
  forces: 'wheels',
  measure: 'leastLoadShare',
  axis: 'station',
  follow: false,
  speed: 1,
  singleKeys: true,
  panel: 'fields',
  driveLine: true,
  units: 'builder',
  fullSize: false,
  lines: {},
};

const isOneOf = (list: readonly unknown[], value: unknown): boolean => list.includes(value);

const isLines = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  Object.values(value).every((list) => Array.isArray(list) && list.every((line) => typeof line === 'string'));

/** Settings out of whatever was stored: each one that is not as it should be falls back to its default. */
export function settingsFrom(stored: unknown): Settings {
  const given = (typeof stored === 'object' && stored !== null ? stored : {}) as Partial<Settings>;
  const ok: Record<keyof Settings, boolean> = {
    theme: isOneOf(['system', 'light', 'dark'], given.theme),
    mode: isOneOf(
      modes.map(({ id }) => id),
      given.mode,
    ),
    building: typeof given.building === 'boolean',
    pitch: typeof given.pitch === 'string',
    measure: typeof given.measure === 'string',
    forces: isOneOf(['wheels', 'joints'], given.forces),
    axis: isOneOf(['station', 'time'], given.axis),
    follow: typeof given.follow === 'boolean',
    speed: isOneOf(speeds, given.speed),
    singleKeys: typeof given.singleKeys === 'boolean',
    panel: typeof given.panel === 'string',
    driveLine: typeof given.driveLine === 'boolean',
    units: isOneOf(['builder', 'si', 'inch'], given.units),
    fullSize: typeof given.fullSize === 'boolean',
    lines: isLines(given.lines),
  };
  const good = Object.entries(given).filter(([key]) => ok[key as keyof Settings] === true);
  return { ...DEFAULTS, ...Object.fromEntries(good) };
}

type Place = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** The same place, where text that it has no room for is not kept: a full disk may not break a click. */
const patient = (place: Place): Place => ({
  getItem: (key) => place.getItem(key),
  setItem(key, text) {
    try {
      place.setItem(key, text);
    } catch {
      // What was chosen holds in this window; it is only not there on the next visit.
    }
  },
  removeItem: (key) => place.removeItem(key),
});

/** Makes the store of settings over a place that keeps text; without one they last as long as the window. */
export const createSettingsStore = (place: Place | undefined) =>
  createStore<Settings>()(
    persist(() => DEFAULTS, {
      name: 'axlewright-settings',
      storage: place === undefined ? undefined : createJSONStorage(() => patient(place)),
      merge: (stored) => settingsFrom(stored),
    }),
  );

export type SettingsStore = ReturnType<typeof createSettingsStore>;

/** The next playing speed up (`by` 1) or down (−1), within the list. */
export function nextSpeed(speed: Settings['speed'], by: 1 | -1): Settings['speed'] {
  return speeds[speeds.indexOf(speed) + by] ?? speed;
}
