import type { Pen } from '../pen.ts';
import type { Site } from '../sites.ts';

/** How elements of some kinds are drawn. */
export interface Drawing {
  /** Kinds of element, as in the document. */
  readonly kinds: readonly string[];
  draw(site: Site, pen: Pen): void;
}
