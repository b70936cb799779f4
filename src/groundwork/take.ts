import type { Workbench } from '../app/workbench.ts';
import { wholeFileProblem } from '../documents/admit.ts';
import { MOST_BYTES } from './profile.ts';

/** Text of a file with a profile; undefined when it is none, which the window tells. */
export async function readProfileFile({ notices }: Workbench, file: File): Promise<string | undefined> {
  const refuse = (message: string): undefined => {
    notices.setState({ refused: { name: file.name, problems: wholeFileProblem(message) } });
    return undefined;
  };
  if (file.size > MOST_BYTES)
    return refuse(
      `has ${Math.round(file.size / 1e6)} MB; at most ${MOST_BYTES / 1e6} MB are read: cut it or thin it out first`,
    );
  let text: string;
  try {
    text = await file.text();
  } catch {
    return refuse('cannot be read: it may have been moved or changed meanwhile');
  }
  if (text.includes('\0')) return refuse('is no text: save it as CSV, with one point a line');
  notices.setState({ refused: undefined });
  return text;
}

/** A file with a profile that was dropped onto the window: shown where it can be taken into the ground. */
export async function takeProfileFile(bench: Workbench, file: File): Promise<void> {
  const text = await readProfileFile(bench, file);
  if (text === undefined) return;
  bench.settings.setState({ building: true });
  bench.notices.setState({ ground: { tool: 'import', file: { name: file.name, text } } });
}
