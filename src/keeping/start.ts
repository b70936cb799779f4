import { takeText } from '../app/take.ts';
import type { Workbench } from '../app/workbench.ts';
import { wholeFileProblem } from '../documents/admit.ts';
import { type Beginning, begin } from './begin.ts';
import { BRING_BACK, Keeper } from './keeper.ts';
import { isLink, linkedIn } from './link.ts';
import { type Marker, readMarker } from './marker.ts';

/** A name that nothing has had: random, because two tabs may ask at once. */
function fresh(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function later(ms: number, then: () => void): () => void {
  const id = setTimeout(then, ms);
  return () => clearTimeout(id);
}

/** Tells that a link was no good; what is open stays open. */
function refuse({ notices }: Workbench, says: string): void {
  notices.setState({ refused: { name: 'The link', problems: wholeFileProblem(says) } });
}

/** Opens the scenario of a link that was put into the address of a window that is open already. */
async function takeLink(bench: Workbench): Promise<void> {
  if (!isLink(location.hash)) return;
  const linked = await linkedIn(location.hash);
  forgetLink();
  if (linked.ok) takeText(bench, linked.name, linked.text);
  else refuse(bench, linked.says);
}

/** Takes the scenario out of the address: a reload shows the document as it was changed, not the link again. */
function forgetLink(): void {
  if (isLink(location.hash)) history.replaceState(history.state, '', location.pathname + location.search);
}

function listen(bench: Workbench, keeper: Keeper): void {
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void keeper.flush();
    else keeper.come();
  });
  window.addEventListener('pagehide', () => keeper.leave());
  window.addEventListener('pageshow', () => keeper.come());
  window.addEventListener('focus', () => keeper.come());
  window.addEventListener('hashchange', () => void takeLink(bench));
}

/**
 * Browsers write the note of what was open some seconds late, so one that crashes may lose it: then there are documents
 * though the window opened as on a first visit, and the newest is offered.
 */
async function offerLast({ documents, keeping }: Workbench, keeper: Keeper, marker: Marker): Promise<void> {
  const heads = await keeper.shelf?.heads().catch(() => []);
  const last = heads?.find(({ deleted }) => deleted === undefined);
  if (last === undefined || marker.demo !== undefined || documents.getState().id !== undefined) return;
  const run = (): void =>
    void keeper.open(last.id).catch(() => keeping.setState({ toast: { says: 'It could not be opened.' } }));
  keeper.say({ says: `You worked on ${last.name} last.`, action: { label: 'Open it', run } });
}

/**
 * Begins to keep what is open in the window.
 * @param found what was found in the browser's database already; on a first visit it is only opened here
 */
export async function startKeeping(bench: Workbench, found: Beginning | undefined): Promise<Keeper> {
  const marker = readMarker();
  const beginning = found ?? (await begin('', {}));
  const { documents, keeping, desk } = bench;
  const drawn = () => desk.state().drawn;
  const keeper = new Keeper({ documents, keeping, drawn, fresh, later, now: () => Date.now() }, beginning);
  if (beginning.refused !== undefined) refuse(bench, beginning.refused);
  // One that was put into the address while this was on its way has not been looked at yet.
  if (location.hash === beginning.fragment) forgetLink();
  else void takeLink(bench);
  listen(bench, keeper);
  void keeper.clearOut(BRING_BACK);
  if (found === undefined) void offerLast(bench, keeper, marker);
  return keeper;
}
