import { useEffect, useMemo, useSyncExternalStore } from 'react';
import { faces, type Palette, palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';
import type { Settings } from '../store/settings.ts';
import { useSettings, useShowing } from './workbench.ts';

const themes = ['system', 'light', 'dark'] as const;

/** The theme after this one, round and round. */
export function nextTheme(theme: Settings['theme']): Settings['theme'] {
  return themes[(themes.indexOf(theme) + 1) % themes.length] ?? 'system';
}

/** `lowInk` → `--low-ink`. */
const propertyOf = (name: string): string =>
  `--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;

/** The palette and the faces as custom properties of CSS. */
export function propertiesOf(palette: Palette): readonly (readonly [string, string])[] {
  return [
    ...Object.entries(palette).map(([name, colour]) => [propertyOf(name), colour as string] as const),
    ['--sans', faces.sans],
    ['--mono', faces.mono],
  ];
}

function useMedia(query: string): boolean {
  const list = window.matchMedia(query);
  return useSyncExternalStore(
    (tell) => {
      list.addEventListener('change', tell);
      return () => list.removeEventListener('change', tell);
    },
    () => list.matches,
  );
}

/** Writes a theme onto the page. */
export function wear(theme: Look['theme'], root: HTMLElement): void {
  for (const [name, value] of propertiesOf(palettes[theme])) root.style.setProperty(name, value);
  root.style.colorScheme = theme;
  root.dataset.theme = theme;
}

/** The looks that the settings and the system ask for; keeps the page dressed in them. */
export function useLook(): Look & Required<Pick<Look, 'showing'>> {
  const wanted = useSettings(({ theme }) => theme);
  const dark = useMedia('(prefers-color-scheme: dark)');
  const still = useMedia('(prefers-reduced-motion: reduce)');
  const theme = wanted === 'system' ? (dark ? 'dark' : 'light') : wanted;
  useEffect(() => wear(theme, document.documentElement), [theme]);
  const showing = useShowing();
  return useMemo(() => ({ theme, still, showing }), [theme, still, showing]);
}
