import type { Workbench } from '../app/workbench.ts';
import { wholeFileProblem } from '../documents/admit.ts';
import { commit } from '../store/document.ts';
import { takePicture } from './picture.ts';
import { layPicture, underlayOf } from './underlay.ts';

/** Share by which a picture without a scale is wider than the vehicle. */
const WIDER = 1.3;

/** Takes a picture file in and lays it under the open drawing, as one step; or says why not. */
export async function takePictureFile(bench: Workbench, file: File): Promise<void> {
  const { documents, notices, settings, desk } = bench;
  const { opening } = documents.getState();
  const refuse = (why: string): void =>
    notices.setState({ refused: { name: file.name, problems: wholeFileProblem(why) } });
  if (documents.getState().raw === null) {
    refuse('needs a vehicle to lie under: begin one first');
    return;
  }
  const taken = await takePicture(file);
  // another document was opened meanwhile: the picture was not meant for that one
  if (documents.getState().opening !== opening) return;
  if (!taken.ok) {
    refuse(taken.why);
    return;
  }
  const { raw } = documents.getState();
  const before = underlayOf(raw);
  const outlines = desk.state().drawn?.mechanism.outlines.flatMap(({ points }) => points) ?? [];
  const hubs = desk.state().drawn?.mechanism.wheels.map(({ hub }) => hub) ?? [];
  const xs = [...outlines, ...hubs].map(({ x }) => x);
  const [from, to] = xs.length === 0 ? [-0.4, 0.1] : [Math.min(...xs), Math.max(...xs)];
  const width = before?.width ?? WIDER * Math.max(to - from, 0.05);
  const height = (width * taken.height) / taken.width;
  const at = before?.at ?? { x: (from + to) / 2, z: 0.45 * height };
  commit(documents, layPicture(raw, taken.picture, at, width));
  notices.setState({ refused: undefined, picture: true });
  settings.setState({ building: true });
}
