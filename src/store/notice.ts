import { createStore } from 'zustand/vanilla';
import type { Path } from '../../shared/path.ts';
import type { Problem } from '../../shared/problem.ts';

/** A question about the open document. 'Stay here', which changes nothing, is always among the answers. */
export interface Question {
  readonly title: string;
  readonly says: string;
  /** What goes on once the document has been saved first; saving is not offered when left out. */
  readonly save?: () => void;
  readonly choices: readonly { readonly label: string; readonly strong?: boolean; run(): void }[];
}

/** What the ground is being changed with. */
export type GroundTool = 'points' | 'draw' | 'chain' | 'import';

/** The ground being changed by hand: the tool, and the text of a profile that came from outside. */
export interface GroundWork {
  readonly tool: GroundTool;
  readonly file?: { readonly name: string; readonly text: string };
}

/** What can be looked at as a table. */
export type TableOf = 'bands' | 'strips' | 'lines' | 'limits' | 'map' | 'changes' | 'measures';

/** What the window has to tell besides the results. */
export interface Notice {
  /** A file that was not opened, and everything that is wrong with it. */
  readonly refused: { readonly name: string; readonly problems: readonly Problem[] } | undefined;
  /** A question that must be answered before anything else. */
  readonly asking: Question | undefined;
  /** The key help is open. */
  readonly help: boolean;
  /** A figure of the form that is to be brought into sight; a new object each time. */
  readonly wanted: { readonly path: Path } | undefined;
  /** Name of the pivot that was taken up last. */
  readonly picked: string | undefined;
  /** Words for a screen reader besides the results. */
  readonly said: string;
  /** A file hangs over the window. */
  readonly dropping: boolean;
  /** The card of the picture under the drawing is open. */
  readonly picture: boolean;
  /** The chart that is shown as a table, to be copied or saved; undefined while none is. */
  readonly table: TableOf | undefined;
  /** A line for the strips is being chosen. */
  readonly adding: boolean;
  /** The palette of actions is open. */
  readonly palette: boolean;
  /** The ground is being changed; undefined while the vehicle is. */
  readonly ground: GroundWork | undefined;
}

/** Makes the store of notices. */
export const createNoticeStore = () =>
  createStore<Notice>(() => ({
    refused: undefined,
    asking: undefined,
    help: false,
    wanted: undefined,
    picked: undefined,
    said: '',
    dropping: false,
    picture: false,
    table: undefined,
    adding: false,
    palette: false,
    ground: undefined,
  }));

export type NoticeStore = ReturnType<typeof createNoticeStore>;
