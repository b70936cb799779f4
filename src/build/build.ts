import { createContext, useContext } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { Edit, Handle } from '../edits/edit.ts';

/** What can be done to the document by hand. Each is one step of the history, unless it belongs to a gesture. */
export interface Building {
  /** Takes an edit in: the document, what to select, and what there is to tell about it. */
  readonly apply: (edit: Edit, gesture?: string) => void;
  /** Tells what there is to tell about an edit that a gesture has ended with. */
  readonly tell: (edit: Edit) => void;
  readonly rename: (entry: Path, name: string) => void;
  readonly duplicate: (entry: Path) => void;
  readonly mirror: (entry: Path) => void;
  /** Gives all axle lines the wheels of one. */
  readonly alike: (entry: Path) => void;
  readonly remove: (entry: Path) => void;
  /** Moves an entry with all that hangs on it, m. Moves of one entry in a row are one step. */
  readonly carry: (entry: Path, by: Vec2) => void;
  /** Adds an entry of a kind to a list, at a place of the drawing where one is given. */
  readonly add: (list: Path, kind: string | undefined, at?: Vec2) => void;
  /** Adds several entries as one thing: an axle with its springs, a bogie. */
  readonly addWhole: (id: string) => void;
}

const Context = createContext<Building | undefined>(undefined);

export const BuildProvider = Context.Provider;

/** What can be done by hand. @throws outside of the builder */
export function useBuild(): Building {
  const building = useContext(Context);
  if (building === undefined) throw new Error('no builder above this component');
  return building;
}

/** What a point takes along. */
export interface Ties {
  /** Nothing: it moves without what hangs on it. */
  readonly alone: boolean;
  /** Rods keep their length, and what hangs at their other end makes way. */
  readonly holdRods: boolean;
}

/** A handle in hand. */
export interface Held {
  readonly handle: Handle;
  /** Where it is wanted, drawn, m; angles: where the pointer pulls it. */
  readonly at: Vec2;
}
