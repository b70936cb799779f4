import { createContext, useContext, useMemo, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { column, type Recording } from '../../shared/recording.ts';
import { type Dimension, type Showing, showQuantity, showSentence } from '../../shared/units.ts';
import { Sight } from '../canvas/sight.ts';
import { Reader } from '../documents/reader.ts';
import type { Keeper } from '../keeping/keeper.ts';
import { Playhead } from '../playhead.ts';
import { Desk, type DeskState } from '../runs/desk.ts';
import type { HeadStart } from '../runs/headstart.ts';
import { type Mapped, Mapping, mapTools } from '../runs/mapping.ts';
import type { Mode } from '../runs/mode.ts';
import { type DragState, PivotDrag } from '../runs/pivotDrag.ts';
import { previewOf } from '../runs/preview.ts';
import { Solvers } from '../runs/solvers.ts';
import { Studies, type StudiesState } from '../runs/studies.ts';
import type { Solved } from '../solved.ts';
import { createDocumentStore, type DocumentState, type DocumentStore } from '../store/document.ts';
import { createKeepingStore, type Keeping, type KeepingStore } from '../store/keeping.ts';
import { createNoticeStore, type Notice, type NoticeStore } from '../store/notice.ts';
import { createSelectionStore, type Selection, type SelectionStore } from '../store/selection.ts';
import { createSettingsStore, type Settings, type SettingsStore } from '../store/settings.ts';
import type { Tuning } from '../studying/session.ts';
import { Viewport } from '../viewport.ts';
import { LiveSolver } from '../workers/live.ts';
import { StudyWorkers } from '../workers/study.ts';
import { frameOf, timesOf } from './moments.ts';
import { Player } from './player.ts';

/** Everything that lives as long as the window. Made once, handed down through React's context. */
export interface Workbench {
  readonly documents: DocumentStore;
  readonly settings: SettingsStore;
  readonly notices: NoticeStore;
  readonly selection: SelectionStore;
  readonly keeping: KeepingStore;
  /** What keeps documents in this browser; loaded at the first call. */
  readonly keeper: () => Promise<Keeper>;
  readonly desk: Desk;
  readonly drag: PivotDrag;
  readonly sight: Sight;
  readonly studies: Studies;
  readonly mapping: Mapping;
  readonly playhead: Playhead;
  readonly viewport: Viewport;
  readonly player: Player;
  readonly stage: Stage;
  /** Keys of what is on show besides the window itself; they come before the window's own. */
  moreKeys: readonly KeyRow[];
  /** The study of the open document; made when it is first looked at. */
  tuning?: Tuning;
}

/** One thing that the keyboard does. The help and the listener read the same table. */
export interface KeyRow {
  readonly group: 'Play' | 'Look' | 'Document' | 'Build';
  /** `KeyboardEvent.key`, with 'Ctrl+' or 'Shift+' in front; Ctrl also stands for the Command key of a Mac. */
  readonly keys: readonly string[];
  readonly says: string;
  run(bench: Workbench): void;
}

/** The place in the window where the picture is drawn; the picture tells it its element. */
export class Stage {
  element: HTMLElement | null = null;

  /** CSS px; undefined while there is no picture. */
  size(): { readonly width: number; readonly height: number } | undefined {
    const box = this.element?.getBoundingClientRect();
    return box === undefined || box.width === 0 ? undefined : { width: box.width, height: box.height };
  }
}

/** Storage that browsers may deny by throwing. */
function storageIfAllowed(): Storage | undefined {
  try {
    return window.localStorage;
  } catch {
    return undefined;
  }
}

/** How long the first run is on show before other workers start, ms: until the window has drawn it. */
const WARM_UP = 400;
/** How long it is on show before the window loads its own reader, ms: until it is drawn. */
const READ = 50;
const WARM_UPS = 4;

function later(ms: number, then: () => unknown): () => void {
  const id = setTimeout(then, ms);
  return () => clearTimeout(id);
}

/** Does something at the first call; all further calls get what came of that, unless it failed. */
function once<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | undefined;
  return () => {
    made ??= make().catch((error: unknown) => {
      made = undefined;
      throw error;
    });
    return made;
  };
}

/** Makes the workbench and ties its parts together: edits to the desk, finished runs to the player. */
export function createWorkbench(
  driver: Pick<HeadStart, 'solve' | 'cancel'>,
  keep: () => Promise<Keeper>,
): Workbench {
  const playhead = new Playhead();
  const documents = createDocumentStore();
  const settings = createSettingsStore(storageIfAllowed());
  const live = new LiveSolver();
  const pool = new StudyWorkers();
  const reader = new Reader();
  const desk = new Desk(
    { prepare: reader.prepare, read: reader.load, solver: new Solvers(driver, live), later },
    lookOf(settings.getState()),
  );
  const bench: Workbench = {
    documents,
    settings,
    notices: createNoticeStore(),
    selection: createSelectionStore(),
    keeping: createKeepingStore(),
    keeper: once(keep),
    desk,
    drag: new PivotDrag({ documents, desk, live, means: reader.means }),
    sight: new Sight(),
    studies: new Studies(pool.begin),
    mapping: new Mapping(mapTools(pool)),
    playhead,
    viewport: new Viewport(),
    stage: new Stage(),
    moreKeys: [],
    player: new Player(playhead, {
      request: (then) => requestAnimationFrame(then),
      cancel: (id) => cancelAnimationFrame(id),
    }),
  };
  followDocuments(bench);
  followRuns(bench);
  followSettings(bench);
  keepMapNew(bench);
  readLater(bench, reader);
  warmUp(bench, live);
  return bench;
}

/** The window's own reader is loaded when the first answer is on show; until then a worker tells what it has read. */
function readLater({ desk }: Workbench, reader: Reader): void {
  const stop = desk.watch(() => {
    if (desk.state().solved === undefined) return;
    stop();
    later(READ, () =>
      reader.load().then(
        () => desk.reread(),
        () => undefined,
      ),
    );
  });
}

/**
 * Has the live worker ready before anybody asks for it: it crosses what is open once the first run is on show, some times
 * over, as scripts that have just been loaded are slow at first.
 */
function warmUp({ desk, documents }: Workbench, live: LiveSolver): void {
  const stop = desk.watch(() => {
    if (desk.state().solved === undefined) return;
    stop();
    later(WARM_UP, async () => {
      for (let i = 0; i < WARM_UPS; i += 1) {
        const came = await live.solve(documents.getState().raw, 'crawl');
        if (came.kind !== 'solved') return;
      }
    });
  });
}

function followDocuments({ documents, desk, drag, player, selection }: Workbench): void {
  documents.subscribe((now, last) => {
    if (now.raw !== last.raw) drag.forget();
    if (now.opening !== last.opening) {
      selection.setState({ entry: undefined, point: undefined, under: undefined });
      player.pause();
      desk.open(now.raw);
    } else if (now.raw !== last.raw) desk.revise(now.raw);
  });
}

/** A run that replaces another keeps the moment that was looked at; the first run starts at its start. */
function followRuns({ desk, player, playhead }: Workbench): void {
  let shown: DeskState['solved'];
  let fresh = true;
  desk.watch(() => {
    const { solved } = desk.state();
    if (solved === undefined) fresh = true;
    if (solved === undefined || solved === shown) return;
    if (solved.recording === shown?.recording) {
      shown = solved;
      return;
    }
    const frame = fresh ? 0 : momentIn(solved.recording, shown?.recording, playhead.frame);
    shown = solved;
    const { frames, rate } = solved.recording;
    player.load({ frames, rate, times: timesOf(solved.recording) }, frame);
    fresh = false;
  });
}

/** The frame of a recording that shows what a frame of the one before showed: the same one, or the same time. */
function momentIn(now: Recording, before: Recording | undefined, frame: number): number {
  if (before === undefined || before.frames <= 1) return 0;
  if (now.mode === 'drive' && before.mode === 'drive') return frame;
  return frameOf(now, column(before, 'time')[Math.min(frame, before.frames - 1)] ?? 0);
}

/** How the vehicle is solved: while it is built, crossing its ground in balance, which tells how it stands too. */
const lookOf = ({ mode, building }: Settings): Mode => (building ? 'crawl' : mode);

function followSettings({ settings, player, desk, drag }: Workbench): void {
  player.speed = settings.getState().speed;
  settings.subscribe((now, last) => {
    player.speed = now.speed;
    const mode = lookOf(now);
    if (mode === lookOf(last)) return;
    player.pause();
    drag.restore();
    desk.look(mode);
  });
}

/** How long an edit waits for the next one before the map is worked out again, ms. */
const MAP_REST = 250;

/** A map that is on show is worked out again for every change of the document or of what it looks at. */
function keepMapNew({ desk, documents, mapping, settings }: Workbench): void {
  let forget = (): void => undefined;
  let { measure: wanted } = settings.getState();
  const look = (): void => {
    forget();
    const mapped = mapping.state();
    const { drawn, problems } = desk.state();
    const { raw } = documents.getState();
    if (mapped === undefined || drawn === undefined || problems.some(({ severity }) => severity === 'error'))
      return;
    const { measure } = settings.getState();
    if (mapped.document === raw && wanted === measure) return;
    wanted = measure;
    forget = later(MAP_REST, async () => {
      // Loaded with the panel that the map was asked in.
      const { mapWish } = await import('../runs/mapWish.ts');
      const wish = mapWish(drawn.scenario, mapped.plane, measure);
      if (mapping.state() === undefined || documents.getState().raw !== raw) return;
      if (wish === undefined) mapping.clear();
      else mapping.ask({ document: raw, ...wish });
    });
  };
  documents.subscribe(look);
  settings.subscribe(look);
}

const Bench = createContext<Workbench | undefined>(undefined);

export const BenchProvider = Bench.Provider;

/** The workbench of this window. @throws when there is none above this component */
export function useBench(): Workbench {
  const bench = useContext(Bench);
  if (bench === undefined) throw new Error('no workbench above this component');
  return bench;
}

/** A part of the desk's state; re-renders when that part is another one. */
export function useDesk<T>(select: (state: DeskState) => T): T {
  const { desk } = useBench();
  return useSyncExternalStore(desk.watch, () => select(desk.state()));
}

/** What is being dragged on the picture. */
export function useDrag(): DragState {
  const { drag } = useBench();
  return useSyncExternalStore(drag.watch, drag.state);
}

/** Jobs that were asked for. */
export function useStudies(): StudiesState {
  const { studies } = useBench();
  return useSyncExternalStore(studies.watch, studies.state);
}

/** The map that is looked at; undefined when there is none. */
export function useMapped(): Mapped | undefined {
  const { mapping } = useBench();
  return useSyncExternalStore(mapping.watch, mapping.state);
}

/** The run to be looked at; before there is one, the vehicle as it is drawn; null while nothing is open. */
export function useShown(): Solved | null {
  const solved = useDesk((state) => state.solved);
  const drawn = useDesk((state) => state.drawn);
  return useMemo(() => solved ?? (drawn === undefined ? null : previewOf(drawn)), [solved, drawn]);
}

/** A part of the open document's state. */
export function useDocument<T>(select: (state: DocumentState) => T): T {
  return useStore(useBench().documents, select);
}

/** One of the settings, or a part of them. */
export function useSettings<T>(select: (state: Settings) => T): T {
  return useStore(useBench().settings, select);
}

/** How figures are shown: in the units of choice, a model's at full size where that is wanted. */
export function useShowing(): Showing {
  const system = useSettings((state) => state.units);
  const fullSize = useSettings((state) => state.fullSize);
  const scale = useDesk(({ drawn }) => drawn?.scenario.vehicle.scale) ?? 1;
  return useMemo(() => ({ system, scale: fullSize ? scale : 1 }), [system, fullSize, scale]);
}

/** Figures for people, as they want them shown: an SI figure with its unit, and sentences that came with figures in them. */
export interface Figures {
  quantity(value: number, dimension: Dimension, digits?: number): string;
  say(sentence: string): string;
}

/** The same in the form in which a panel with many figures wants it. */
export function useFigures(): Figures {
  const showing = useShowing();
  return useMemo(
    () => ({
      quantity: (value, dimension, digits) => showQuantity(value, dimension, showing, digits),
      say: (sentence) => showSentence(sentence, showing),
    }),
    [showing],
  );
}

/** A part of what is selected. */
export function useSelection<T>(select: (state: Selection) => T): T {
  return useStore(useBench().selection, select);
}

/** A part of what is known of how the document is kept. */
export function useKeeping<T>(select: (state: Keeping) => T): T {
  return useStore(useBench().keeping, select);
}

/** A part of what the window has to tell. */
export function useNotice<T>(select: (state: Notice) => T): T {
  return useStore(useBench().notices, select);
}

/** Whether the run is being played. */
export function usePlaying(): boolean {
  const { player } = useBench();
  return useSyncExternalStore(player.watch, player.playing);
}
