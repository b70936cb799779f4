import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { Json } from '../documents/json.ts';
import { newProblems, type Remark } from './remarks.ts';

export type { Remark };

/** One thing done to a document, with its name for the history: 'move pivot of rear-arm'. */
export interface Edit {
  readonly says: string;
  /** The document after it; the very document that was given when nothing changed. */
  readonly document: Json;
  /**
   * What came of it: what was changed along the way, and problems that the document did not have before. Found when
   * first asked for, since finding them reads both documents.
   */
  readonly remarks: readonly Remark[];
  /** Entry to select afterwards; absent when the selection may stay. */
  readonly select?: Path;
}

/** A place in the drawing that can be taken hold of. */
export interface Handle {
  /** The point, or the figure of the angle. */
  readonly path: Path;
  /** The entry that it belongs to. */
  readonly entry: Path;
  /** 'pivot of rear-arm'. */
  readonly label: string;
  readonly kind: 'point' | 'angle';
  /** Where it is drawn, m. */
  readonly at: Vec2;
  /** Angles: the figure, rad. */
  readonly value?: number;
  /** Angles: what it turns about, m. */
  readonly about?: Vec2;
  /** Angles: direction in the drawing of the figure 0, rad counter-clockwise from forward. */
  readonly zero?: number;
  /** Angles: 1 when the figure grows counter-clockwise (nose up), −1 when clockwise. */
  readonly sense?: 1 | -1;
}

/** What an edit says besides its name and document. */
export interface Aside {
  readonly remarks?: readonly Remark[];
  readonly select?: Path | undefined;
}

/** The edit that turned `before` into `document`; problems that are new are looked for when the remarks are read. */
export function edited(
  before: Json,
  document: Json,
  says: string,
  { remarks = [], select }: Aside = {},
): Edit {
  let found: readonly Remark[] | undefined;
  return {
    says,
    document,
    get remarks() {
      found ??= [...remarks, ...newProblems(before, document)];
      return found;
    },
    ...(select === undefined ? {} : { select }),
  };
}

/** An edit that could not be done: the document stays, and the remark says why. */
export function declined(document: Json, says: string, path: string, message: string): Edit {
  return { says, document, remarks: [{ path, message, severity: 'error' }] };
}
