import { z } from 'zod';
import type { Problem } from '../../shared/problem.ts';
import { usualLevels } from './space.ts';

/** Most points that a search may ask for. */
export const mostPoints = 1_000_000;

/** Levels of a range without steps. */
export const levelsField = z.int().min(2).max(1000).default(usualLevels).meta({
  description: 'Values along a range that has no steps of its own, its ends among them.',
  unit: '1',
});

/** How many designs may be evaluated. */
export const effortField = (usual: number, says: string) =>
  z.int().min(1).max(mostPoints).default(usual).meta({ description: says, unit: '1' });

/** Refusal of a search that would ask for more points than any search may. */
export const tooMany = (size: number, hint: string): readonly Problem[] => [
  {
    path: '',
    message: `comes to ${size.toLocaleString('en-GB')} designs, at most ${mostPoints.toLocaleString('en-GB')} are taken`,
    hint,
    severity: 'error',
  },
];
