import type { Path } from '../../shared/path.ts';
import type { Dimension, Spread as Form } from '../../shared/units.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Stock } from '../stock/stock.ts';
import type { Dial } from './dial.ts';
import type { StudyDocument } from './document.ts';
import type { Goal } from './goal.ts';

/** A figure that is known only roughly. Plain data. */
export interface RoughFigure {
  readonly path: Path;
  readonly name: string;
  readonly dimension: Dimension;
  readonly middle: number;
  readonly form: Form;
  /** The study says it, of whatever part stands there; else it is of the part that the scenario has. */
  readonly own?: true;
}

/** One ground of a study with all that a crossing of it needs. Plain data. */
export interface StudyGround {
  readonly name: string;
  readonly weight: number;
  /** The study's scenario on this ground. */
  readonly scenario: Scenario;
  /** Texts of the files that the ground names. */
  readonly files: Readonly<Record<string, string>>;
}

/** A study with everything that it names in place: plain data, which can be sent to a worker as it is. */
export interface BoundStudy {
  readonly document: StudyDocument;
  readonly scenario: Scenario;
  readonly dials: readonly Dial[];
  readonly grounds: readonly StudyGround[];
  readonly goals: readonly Goal[];
  /** How designs are tried. */
  readonly by: 'crawl' | 'drive';
  /** How many of the best designs of a crawl are driven. */
  readonly confirm: number;
  /** Where numbers choose from stock. */
  readonly stock?: Stock;
  /** Figures that are known only roughly. */
  readonly rough: readonly RoughFigure[];
}
