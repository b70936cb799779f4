import { takeText } from '../app/take.ts';
import type { Workbench } from '../app/workbench.ts';
import { admit, wholeFileProblem } from '../documents/admit.ts';
import { forFiles } from '../documents/carried.ts';
import type { Demo } from '../documents/demos.ts';
import { type Picked, pickFile, readTextFile, rewriteFile, saveFile } from '../documents/files.ts';
import { isEdited, markSaved, textOf } from '../store/document.ts';
import { fragmentOf, MOST_LINK } from './link.ts';
import { troubleWords } from './trouble.ts';

/** Whether opening something else would lose edits: they are neither in this browser nor in a file. */
function isAtRisk({ documents, keeping }: Workbench): boolean {
  return keeping.getState().trouble !== undefined && isEdited(documents.getState());
}

/**
 * Does `proceed` at once where the browser keeps the document, for then nothing is lost; after a yes where it doesn't
 * and the document was edited.
 */
export function unlessLost(bench: Workbench, proceed: () => void): void {
  const { trouble } = bench.keeping.getState();
  if (trouble === undefined || !isAtRisk(bench)) {
    proceed();
    return;
  }
  bench.notices.setState({
    asking: {
      title: `${bench.documents.getState().name} has unsaved edits`,
      says: `${troubleWords(trouble).title}. Opening another scenario throws the edits away.`,
      save: proceed,
      choices: [{ label: 'Throw away', run: proceed }],
    },
  });
}

/** Opens a file from the disk, by picker or by drop. One that is kept just as it is on the disk is not kept twice. */
export async function takeFile(bench: Workbench, { file, handle }: Picked): Promise<void> {
  const read = await readTextFile(file);
  if ('refused' in read) {
    bench.notices.setState({ refused: { name: read.name, problems: wholeFileProblem(read.refused) } });
    return;
  }
  const { name, text } = read;
  const take = (): void => takeText(bench, name, text, { handle });
  // Refused files never replace anything, so only good ones are worth a question.
  if (!admit(text).ok) take();
  else unlessLost(bench, () => void openOnce(bench, name, text, take));
}

/** Opens the kept document that has this very text and no edits, else does `take`. */
export async function openOnce(
  bench: Workbench,
  name: string,
  text: string,
  take: () => void,
): Promise<void> {
  const keeper = await bench.keeper();
  const id = await keeper.twinOf(name, text);
  if (id === undefined) take();
  else {
    bench.notices.setState({ refused: undefined });
    await keeper.open(id).catch(take);
  }
}

/** Asks for a file and opens it. */
export async function pickAndOpen(bench: Workbench): Promise<void> {
  const picked = await pickFile();
  if (picked !== undefined) await takeFile(bench, picked);
}

/** Opens a scenario that ships with the app. */
export async function takeDemo(bench: Workbench, demo: Demo): Promise<void> {
  const problem = wholeFileProblem('could not be loaded: the server does not answer');
  const load = (): Promise<void> =>
    demo.load().then(
      (text) => takeText(bench, demo.name, text, { demo: true }),
      () => bench.notices.setState({ refused: { name: demo.name, problems: problem } }),
    );
  if (isAtRisk(bench)) unlessLost(bench, () => void load());
  else await load();
}

/** Asks what to do where the file on the disk is no longer the one that was opened. */
function askAboutOthers(bench: Workbench, name: string): void {
  bench.notices.setState({
    asking: {
      title: `${name} has changed on the disk`,
      says: 'Another program has written it since it was opened or saved here. Nothing was written yet.',
      choices: [
        { label: 'Save elsewhere', strong: true, run: () => void save(bench, 'elsewhere') },
        { label: 'Write over it', run: () => void save(bench, 'over') },
      ],
    },
  });
}

/**
 * Saves the open document: back into its file where there is one and the browser may write it, else where the user says.
 * @param way `elsewhere` asks for a place anyway; `over` writes the file even if somebody else has changed it
 * @returns whether it was saved
 */
export async function save(bench: Workbench, way: 'back' | 'elsewhere' | 'over' = 'back'): Promise<boolean> {
  const { documents, keeping } = bench;
  const state = documents.getState();
  const { name, handle, opening, raw } = state;
  if (name === '') return false;
  const text = textOf(state);
  const done = (as: string, to: typeof handle): true => {
    if (documents.getState().opening === opening) markSaved(documents, as, text, { raw, handle: to });
    if (to !== undefined) keeping.setState({ toast: { says: `Saved in ${as}.` } });
    return true;
  };
  if (handle !== undefined && way !== 'elsewhere') {
    const came = await rewriteFile(handle, text, way === 'over' ? undefined : state.text);
    if (came === 'saved') return done(name, handle);
    if (came === 'changed') {
      askAboutOthers(bench, name);
      return false;
    }
  }
  const saved = await saveFile({ name, text });
  return saved === undefined ? false : done(saved.name, saved.handle);
}

/** Puts an address that carries the whole scenario into the clipboard, or says why there is none. */
export async function copyLink(bench: Workbench): Promise<void> {
  const { documents, keeping } = bench;
  const { name, raw } = documents.getState();
  const say = (says: string): void => keeping.setState({ toast: { says } });
  if (name === '') return;
  if (typeof CompressionStream === 'undefined') {
    say('This browser cannot pack a scenario into a link. Save a file instead.');
    return;
  }
  const { fragment, fits } = await fragmentOf(name, forFiles(raw));
  const inWords = (length: number): string => length.toLocaleString('en');
  if (!fits) {
    keeping.setState({
      toast: {
        says: `Too large for a link: ${inWords(fragment.length)} characters, and at most ${inWords(MOST_LINK)} get through letters and chats unharmed.`,
        action: { label: 'Save a file', run: () => void save(bench, 'elsewhere') },
      },
    });
    return;
  }
  const address = location.href.replace(/#.*$/, '') + fragment;
  try {
    await navigator.clipboard.writeText(address);
    say(
      `Link copied, ${inWords(address.length)} characters: the scenario is in the link itself, on no server.`,
    );
  } catch {
    keeping.setState({
      toast: { says: 'The browser does not let this page copy. Here is the link:', text: address },
    });
  }
}
