import type { Path } from '../../shared/path.ts';
import type { Moment } from '../../shared/report.ts';
import type { Plane } from '../../sim/studies/planes.ts';
import type { Demo } from '../documents/demos.ts';
import { editAll } from '../store/document.ts';
import { nextSpeed } from '../store/settings.ts';
import { bringIntoSight } from './camera.ts';
import { eventAfter, eventBefore, frameOf } from './moments.ts';
import type { Workbench } from './workbench.ts';

/** Files, demos and links: loaded when the first of them is asked for. */
const opening = () => import('../keeping/opening.ts');

/** Opens a file that was dropped onto the window. */
export async function takeFile(bench: Workbench, file: File): Promise<void> {
  await (await opening()).takeFile(bench, { file });
}

/** Asks for a file and opens it. */
export async function pickAndOpen(bench: Workbench): Promise<void> {
  await (await opening()).pickAndOpen(bench);
}

/** Opens a scenario that ships with the app. */
export async function takeDemo(bench: Workbench, demo: Demo): Promise<void> {
  (await opening()).takeDemo(bench, demo);
}

/** Saves the open document, back into its file where it has one; asks for a place when `elsewhere`. */
export async function save(bench: Workbench, elsewhere = false): Promise<boolean> {
  return (await opening()).save(bench, elsewhere ? 'elsewhere' : 'back');
}

/** Puts a link that carries the whole scenario into the clipboard. */
export async function copyLink(bench: Workbench): Promise<void> {
  await (await opening()).copyLink(bench);
}

/** Shows a moment of the run, when what it is about has just happened, and stays there. Time in s. */
export function jumpTo(bench: Workbench, { time }: Pick<Moment, 'time'>): void {
  // What is being built stands still: its crossing is looked at where it can be played.
  const { settings } = bench;
  if (settings.getState().building) settings.setState({ building: false, mode: 'crawl' });
  const recording = bench.desk.state().solved?.recording;
  if (recording === undefined) return;
  bench.player.pause();
  bench.player.seek(frameOf(recording, time));
  bringIntoSight(bench);
}

/** Jumps to the next event (`by` 1) or the one before (−1). Without one it stays where it is. */
export function jumpToEvent(bench: Workbench, by: 1 | -1): void {
  const recording = bench.desk.state().solved?.recording;
  if (recording === undefined) return;
  const find = by === 1 ? eventAfter : eventBefore;
  const found = find(recording, bench.playhead.frame);
  if (found !== undefined) jumpTo(bench, found.event);
}

/** Plays faster (`by` 1) or slower (−1). */
export function changeSpeed({ settings }: Workbench, by: 1 | -1): void {
  settings.setState(({ speed }) => ({ speed: nextSpeed(speed, by) }));
}

/** Opens the form at a figure and puts the cursor into it. */
export function findField({ settings, notices }: Workbench, path: Path): void {
  settings.setState({ panel: 'fields' });
  notices.setState({ wanted: { path } });
}

/** Digits with which a place is taken: as it is shown. */
const PLACE_DIGITS = 4;

/** Puts both knobs of a plane to a place, SI, as one edit. */
export async function takePlace(
  { documents }: Workbench,
  { x, z }: Plane,
  place: { readonly x: number; readonly z: number },
): Promise<void> {
  const { changesOf, settingsFor } = await import('../runs/means.ts');
  const settings = settingsFor([
    { knob: x.knob, to: Number(place.x.toPrecision(PLACE_DIGITS)) },
    { knob: z.knob, to: Number(place.z.toPrecision(PLACE_DIGITS)) },
  ]);
  editAll(documents, changesOf(documents.getState().raw, settings), 'take a place of the map');
}
