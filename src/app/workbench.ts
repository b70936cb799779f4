import { createContext, useContext, useMemo, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { prepare } from '../documents/admit.ts';
import { Playhead } from '../playhead.ts';
import { Desk, type DeskState, type DeskTools } from '../runs/desk.ts';
import { previewOf } from '../runs/preview.ts';
import type { Solved } from '../solved.ts';
import { createDocumentStore, type DocumentState, type DocumentStore } from '../store/document.ts';
import { createNoticeStore, type Notice, type NoticeStore } from '../store/notice.ts';
import { createSettingsStore, type Settings, type SettingsStore } from '../store/settings.ts';
import { Viewport } from '../viewport.ts';
import { Player } from './player.ts';

/** Everything that lives as long as the window. Made once, handed down through React's context. */
export interface Workbench {
  readonly documents: DocumentStore;
  readonly settings: SettingsStore;
  readonly notices: NoticeStore;
  readonly desk: Desk;
  readonly playhead: Playhead;
  readonly viewport: Viewport;
  readonly player: Player;
  readonly stage: Stage;
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

function later(ms: number, then: () => void): () => void {
  const id = setTimeout(then, ms);
  return () => clearTimeout(id);
}

/** Makes the workbench and ties its parts together: edits to the desk, finished runs to the player. */
export function createWorkbench(solver: DeskTools['solver']): Workbench {
  const playhead = new Playhead();
  const bench: Workbench = {
    documents: createDocumentStore(),
    settings: createSettingsStore(storageIfAllowed()),
    notices: createNoticeStore(),
    desk: new Desk({ prepare, solver, later }),
    playhead,
    viewport: new Viewport(),
    stage: new Stage(),
    player: new Player(playhead, {
      request: (then) => requestAnimationFrame(then),
      cancel: (id) => cancelAnimationFrame(id),
    }),
  };
  followDocuments(bench);
  followRuns(bench);
  followSpeed(bench);
  return bench;
}

function followDocuments({ documents, desk, player }: Workbench): void {
  documents.subscribe((now, last) => {
    if (now.opening !== last.opening) {
      player.pause();
      desk.open(now.raw);
    } else if (now.raw !== last.raw) desk.revise(now.raw);
  });
}

/** A run that replaces another keeps the vehicle where it was looked at; the first run starts at its start. */
function followRuns({ desk, player, playhead }: Workbench): void {
  let shown: unknown;
  let fresh = true;
  desk.watch(() => {
    const { solved } = desk.state();
    if (solved === undefined) fresh = true;
    if (solved === undefined || solved === shown) return;
    shown = solved;
    player.load(solved.recording, fresh ? 0 : playhead.frame);
    fresh = false;
  });
}

function followSpeed({ settings, player }: Workbench): void {
  player.speed = settings.getState().speed;
  settings.subscribe(({ speed }) => {
    player.speed = speed;
  });
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

/** A part of what the window has to tell. */
export function useNotice<T>(select: (state: Notice) => T): T {
  return useStore(useBench().notices, select);
}

/** Whether the run is being played. */
export function usePlaying(): boolean {
  const { player } = useBench();
  return useSyncExternalStore(player.watch, player.playing);
}
