import type { Path } from '../../shared/path.ts';
import type { Moment } from '../../shared/report.ts';
import { settingsFor } from '../../sim/studies/knob.ts';
import type { Plane } from '../../sim/studies/planes.ts';
import { admit, wholeFileProblem } from '../documents/admit.ts';
import type { Demo } from '../documents/demos.ts';
import { pickFile, readTextFile, saveFile } from '../documents/files.ts';
import { changesOf } from '../runs/pivotDrag.ts';
import { editAll, isEdited, markSaved, openDocument, textOf } from '../store/document.ts';
import { nextSpeed } from '../store/settings.ts';
import { bringIntoSight } from './camera.ts';
import { eventAfter, eventBefore, frameOf } from './moments.ts';
import type { Workbench } from './workbench.ts';

/** Takes text in as the open document, or shows everything that is wrong with it and leaves the open one alone. */
export function takeText({ documents, notices }: Workbench, name: string, text: string): void {
  const admitted = admit(text);
  if (!admitted.ok) {
    notices.setState({ refused: { name, problems: admitted.problems } });
    return;
  }
  notices.setState({ refused: undefined });
  openDocument(documents, name, text, admitted.value);
}

/** Does `proceed` at once, or after a yes when it would throw unsaved edits away. */
function unlessEdited({ documents, notices }: Workbench, proceed: () => void): void {
  if (isEdited(documents.getState())) notices.setState({ asking: { proceed } });
  else proceed();
}

/** Opens a file from the disk, by picker or by drop. */
export async function takeFile(bench: Workbench, file: File): Promise<void> {
  const read = await readTextFile(file);
  if ('refused' in read) {
    bench.notices.setState({ refused: { name: read.name, problems: wholeFileProblem(read.refused) } });
    return;
  }
  // Refused files never replace anything, so only good ones are worth a question.
  if (admit(read.text).ok) unlessEdited(bench, () => takeText(bench, read.name, read.text));
  else takeText(bench, read.name, read.text);
}

/** Asks for a file and opens it. */
export async function pickAndOpen(bench: Workbench): Promise<void> {
  const file = await pickFile();
  if (file !== undefined) await takeFile(bench, file);
}

/** Opens a scenario that ships with the app. */
export function takeDemo(bench: Workbench, demo: Demo): void {
  unlessEdited(bench, () => {
    demo.load().then(
      (text) => takeText(bench, demo.name, text),
      () =>
        bench.notices.setState({
          refused: {
            name: demo.name,
            problems: wholeFileProblem('could not be loaded: the server does not answer'),
          },
        }),
    );
  });
}

/** Saves the open document. @returns whether it was saved */
export async function save({ documents }: Workbench): Promise<boolean> {
  const { name } = documents.getState();
  if (name === '') return false;
  const text = textOf(documents.getState());
  const saved = await saveFile({ name, text });
  if (saved !== undefined) markSaved(documents, saved, text);
  return saved !== undefined;
}

/** Shows a moment of the run, when what it is about has just happened, and stays there. Time in s. */
export function jumpTo(bench: Workbench, { time }: Pick<Moment, 'time'>): void {
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
export function takePlace(
  { documents }: Workbench,
  { x, z }: Plane,
  place: { readonly x: number; readonly z: number },
): void {
  const settings = settingsFor([
    { knob: x.knob, to: Number(place.x.toPrecision(PLACE_DIGITS)) },
    { knob: z.knob, to: Number(place.z.toPrecision(PLACE_DIGITS)) },
  ]);
  editAll(documents, changesOf(documents.getState().raw, settings), 'take a place of the map');
}
