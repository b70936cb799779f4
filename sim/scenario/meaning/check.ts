import type { Problems } from '../../../shared/problem.ts';
import type { Ground } from '../../ground/ground.ts';
import type { Tree } from '../../mechanism/build.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import type { Draft } from '../draft.ts';
import type { Scenario } from '../schema.ts';

/** A check of single entries: told also when other entries could not be read. */
export type EntryCheck = (draft: Draft, tree: Tree, problems: Problems) => void;

/** A scenario whose every entry makes sense by itself, with its vehicle compiled and its ground laid. */
export interface Whole {
  readonly scenario: Scenario;
  readonly mechanism: Mechanism;
  readonly ground: Ground;
}

/** A check of the vehicle, the ground and the run together. */
export type WholeCheck = (whole: Whole, problems: Problems) => void;
