import { keepRun } from '../panels/comparing.ts';
import { modes } from '../runs/mode.ts';
import { redo, undo } from '../store/document.ts';
import { changeSpeed, copyLink, jumpToEvent, pickAndOpen, save } from './actions.ts';
import { fitGround, fitVehicle, zoom } from './camera.ts';
import { nextTheme } from './theme.ts';
import type { KeyRow, Workbench } from './workbench.ts';

/** Frames by which the arrow keys move with Shift. */
const STRIDE = 10;

/** Closes the list of keys; without it, calls the run off. */
function giveUp({ notices, desk, drag, keeping }: Workbench): void {
  const { adding, table, palette } = notices.getState();
  if (drag.state().held !== undefined) drag.restore();
  else if (palette) notices.setState({ palette: false });
  else if (adding) notices.setState({ adding: false });
  else if (table !== undefined) notices.setState({ table: undefined });
  else if (keeping.getState().view !== undefined) keeping.setState({ view: undefined });
  else if (notices.getState().help) notices.setState({ help: false });
  else if (desk.state().phase.kind === 'running') desk.cancel();
}

export const keyTable: readonly KeyRow[] = [
  { group: 'Play', keys: [' '], says: 'play or pause', run: ({ player }) => player.toggle() },
  { group: 'Play', keys: ['ArrowRight'], says: 'one frame on', run: ({ player }) => player.step(1) },
  { group: 'Play', keys: ['ArrowLeft'], says: 'one frame back', run: ({ player }) => player.step(-1) },
  {
    group: 'Play',
    keys: ['Shift+ArrowRight'],
    says: 'ten frames on',
    run: ({ player }) => player.step(STRIDE),
  },
  {
    group: 'Play',
    keys: ['Shift+ArrowLeft'],
    says: 'ten frames back',
    run: ({ player }) => player.step(-STRIDE),
  },
  {
    group: 'Play',
    keys: ['Home'],
    says: 'first frame',
    run: ({ player }) => player.step(Number.NEGATIVE_INFINITY),
  },
  {
    group: 'Play',
    keys: ['End'],
    says: 'last frame',
    run: ({ player }) => player.step(Number.POSITIVE_INFINITY),
  },
  { group: 'Play', keys: ['n'], says: 'next event', run: (bench) => jumpToEvent(bench, 1) },
  { group: 'Play', keys: ['p'], says: 'previous event', run: (bench) => jumpToEvent(bench, -1) },
  { group: 'Play', keys: [']'], says: 'play faster', run: (bench) => changeSpeed(bench, 1) },
  { group: 'Play', keys: ['['], says: 'play slower', run: (bench) => changeSpeed(bench, -1) },
  ...modes.map(({ id, title, key }) => ({
    group: 'Look' as const,
    keys: [key],
    says: `${title.toLowerCase()}`,
    run: ({ settings }: Workbench) => settings.setState({ mode: id, building: false }),
  })),
  { group: 'Look', keys: ['b'], says: 'build', run: ({ settings }) => settings.setState({ building: true }) },
  {
    group: 'Look',
    keys: ['j'],
    says: 'forces in joints and members, or on wheels only',
    run: ({ settings }) =>
      settings.setState(({ forces }) => ({ forces: forces === 'joints' ? 'wheels' : 'joints' })),
  },
  { group: 'Look', keys: ['g'], says: 'show the whole ground', run: fitGround },
  { group: 'Look', keys: ['v'], says: 'show the vehicle', run: fitVehicle },
  { group: 'Look', keys: ['+', '='], says: 'closer', run: (bench) => zoom(bench, 'closer') },
  { group: 'Look', keys: ['-'], says: 'farther away', run: (bench) => zoom(bench, 'farther') },
  {
    group: 'Look',
    keys: ['f'],
    says: 'follow the vehicle',
    run: ({ settings }) => settings.setState(({ follow }) => ({ follow: !follow })),
  },
  {
    group: 'Look',
    keys: ['x'],
    says: 'bands and strips over station or time',
    run: ({ settings }) => settings.setState(({ axis }) => ({ axis: axis === 'time' ? 'station' : 'time' })),
  },
  {
    group: 'Look',
    keys: ['t'],
    says: 'light, dark, or as the system',
    run: ({ settings }) => settings.setState(({ theme }) => ({ theme: nextTheme(theme) })),
  },
  { group: 'Document', keys: ['Ctrl+o'], says: 'open a file', run: (bench) => void pickAndOpen(bench) },
  { group: 'Document', keys: ['Ctrl+s'], says: 'save the file', run: (bench) => void save(bench) },
  {
    group: 'Document',
    keys: ['Ctrl+Shift+s'],
    says: 'save under another name',
    run: (bench) => void save(bench, true),
  },
  {
    group: 'Document',
    keys: ['d'],
    says: 'your documents',
    run: ({ keeping }) => keeping.setState({ view: 'documents' }),
  },
  { group: 'Document', keys: ['l'], says: 'copy a link', run: (bench) => void copyLink(bench) },
  {
    group: 'Document',
    keys: ['h'],
    says: 'all steps',
    run: ({ keeping }) => keeping.setState(({ view }) => ({ view: view === 'steps' ? undefined : 'steps' })),
  },
  { group: 'Document', keys: ['Ctrl+z'], says: 'take an edit back', run: ({ documents }) => undo(documents) },
  {
    group: 'Document',
    keys: ['Ctrl+Shift+z', 'Ctrl+y'],
    says: 'do it again',
    run: ({ documents }) => redo(documents),
  },
  { group: 'Document', keys: ['k'], says: 'keep this run to compare with', run: keepRun },
  { group: 'Document', keys: ['c'], says: 'compare with no run', run: ({ desk }) => desk.clear() },
  { group: 'Document', keys: ['Escape'], says: 'cancel the run', run: giveUp },
  {
    group: 'Look',
    keys: ['i'],
    says: 'add a line under the strips',
    run: ({ notices }) => notices.setState(({ adding }) => ({ adding: !adding })),
  },
  {
    group: 'Look',
    keys: ['u'],
    says: 'tables of bands, strips and everything found',
    run: ({ notices }) =>
      notices.setState(({ table }) => ({ table: table === undefined ? 'bands' : undefined })),
  },
  {
    group: 'Document',
    keys: ['Ctrl+k'],
    says: 'find an action by its name',
    run: ({ notices }) => notices.setState({ palette: true }),
  },
  {
    group: 'Document',
    keys: ['?'],
    says: 'this list',
    run: ({ notices }) => notices.setState(({ help }) => ({ help: !help })),
  },
];

/** The keys of an event in the spelling of the table. */
export function spell(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>,
): string {
  const { key } = event;
  const letter = key.length === 1 ? key.toLowerCase() : key;
  const ctrl = event.ctrlKey || event.metaKey;
  // Shift is part of a printed character already ('?', '+'); only for letters and named keys it says something more.
  const shift = event.shiftKey && (key.length > 1 || (ctrl && letter !== letter.toUpperCase()));
  return `${ctrl ? 'Ctrl+' : ''}${event.altKey ? 'Alt+' : ''}${shift ? 'Shift+' : ''}${letter}`;
}

const typesInto = 'input:not([type=radio], [type=checkbox]), textarea, select, [contenteditable]';
/** A radio button that is on does nothing with Space: after a click on a switch of the header, Space still plays. */
const takesSpace =
  'button, a, summary, [role=button], [role=tab], [role=switch], [type=checkbox], [type=radio]:not(:checked)';
const takesArrows = '[type=radio], [role=tab]';

/** Whether the focused thing has its own use for this key. */
function isTaken(target: EventTarget | null, spelt: string): boolean {
  if (!(target instanceof Element)) return false;
  if (target.closest('dialog') !== null) return true;
  if (spelt === 'Escape') return document.querySelector(':popover-open') !== null;
  if (spelt.startsWith('Ctrl+'))
    return (
      !['Ctrl+s', 'Ctrl+Shift+s', 'Ctrl+o', 'Ctrl+k'].includes(spelt) && target.closest(typesInto) !== null
    );
  if (target.closest(typesInto) !== null) return true;
  if (spelt.includes('Arrow') && target.matches(takesArrows)) return true;
  return spelt === ' ' && target.closest(takesSpace) !== null;
}

/** Listens on the window; returns the way to stop. */
export function listenToKeys(bench: Workbench): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    const spelt = spell(event);
    // What is typed while the palette comes up is meant for it.
    if (bench.notices.getState().palette && spelt.length === 1) return;
    const row = [...bench.moreKeys, ...keyTable].find(({ keys }) => keys.includes(spelt));
    if (row === undefined || isTaken(event.target, spelt)) return;
    if (spelt.length === 1 && spelt !== ' ' && !bench.settings.getState().singleKeys) return;
    event.preventDefault();
    row.run(bench);
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}
