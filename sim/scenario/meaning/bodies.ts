import { limits } from '../../../shared/schema/scenario.ts';
import type { EntryCheck } from './check.ts';

/** No more bodies than the engine is meant for. */
export const bodiesAreFew: EntryCheck = (_draft, tree, problems) => {
  const count = tree.bodies.length;
  if (count <= limits.bodies) return;
  problems.error(
    'vehicle.members',
    `make ${count} bodies with the chassis, at most ${limits.bodies} are allowed`,
    'use rigid axles where nothing moves',
  );
};
