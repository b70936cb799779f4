import { createStore } from 'zustand/vanilla';
import type { Trouble } from '../keeping/trouble.ts';

/** A short message that goes by itself, with one thing that can be done about it. */
export interface Toast {
  readonly says: string;
  /** Text to be copied by hand. */
  readonly text?: string;
  readonly action?: { readonly label: string; run(): void };
}

/** What the window knows of how its document is kept in this browser. */
export interface Keeping {
  /** `none`: nobody has changed the demo that is open; `waiting`: a change is on its way; `kept`: all is there. */
  readonly phase: 'none' | 'waiting' | 'kept';
  /** Why the newest change is not there. */
  readonly trouble: Trouble | undefined;
  /** The document is another tab's: it was open there first, or that tab has taken it over. */
  readonly elsewhere: 'open' | 'taken' | undefined;
  /** The user has chosen to only read it. */
  readonly reading: boolean;
  /** Which view of documents or steps is open. */
  readonly view: 'documents' | 'steps' | undefined;
  readonly toast: Toast | undefined;
}

/** Makes the store of how the document is kept. */
export const createKeepingStore = () =>
  createStore<Keeping>(() => ({
    phase: 'none',
    trouble: undefined,
    elsewhere: undefined,
    reading: false,
    view: undefined,
    toast: undefined,
  }));

export type KeepingStore = ReturnType<typeof createKeepingStore>;
