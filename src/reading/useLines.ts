import { useDesk, useSettings, type Workbench } from '../app/workbench.ts';
import type { Settings } from '../store/settings.ts';
import { toggled } from './lines.ts';

/** Vehicles whose lines are kept; the ones that were not changed for longest go first. */
const MOST_VEHICLES = 40;

const none: readonly string[] = [];

/** The lines that are kept for the vehicle on show, whether its run has them or not. */
export function useLines(): readonly string[] {
  const vehicle = useDesk(({ drawn }) => drawn?.vehicle) ?? '';
  return useSettings(({ lines }) => lines[vehicle]) ?? none;
}

/** The lines of all vehicles after one of them was added or removed for one. */
export function linesAfter(lines: Settings['lines'], vehicle: string, line: string): Settings['lines'] {
  const { [vehicle]: own = none, ...others } = lines;
  const kept = Object.entries(others).slice(-MOST_VEHICLES + 1);
  const now = toggled(own, line);
  return Object.fromEntries([...kept, ...(now.length === 0 ? [] : [[vehicle, now] as const])]);
}

/** Adds a line for the vehicle on show, or removes it. */
export function toggleLine({ settings, desk }: Workbench, line: string): void {
  const vehicle = desk.state().drawn?.vehicle ?? '';
  settings.setState(({ lines }) => ({ lines: linesAfter(lines, vehicle, line) }));
}
