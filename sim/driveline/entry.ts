import type { Problems } from '../../shared/problem.ts';
import type { Scenario } from '../scenario/schema.ts';

/** A drive line as a scenario has it, and one of its parts. */
export type DrivelineEntry = NonNullable<Scenario['vehicle']['driveline']>;
export type PartEntry = DrivelineEntry['parts'][number];

/** What a drive line is fitted into. */
export interface Fitting {
  /** Names of all axle lines, in their order. */
  readonly wheels: readonly string[];
  /** Member that carries each of them, or 'chassis'. */
  readonly carriers: readonly string[];
  /** Body by member name, 'chassis' included. */
  readonly bodyOf: ReadonlyMap<string, number>;
  readonly problems: Problems;
}
