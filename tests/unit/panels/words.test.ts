import { expect, it } from 'vitest';
import { unbroken } from '../../../src/panels/words.ts';

it('a figure keeps its unit beside it, and words after figures stay free to break', () => {
  expect(unbroken('At station 633 mm, off the ground for 121 ms; 3 hits, 20 % of 1.2 kN at −3.1°.')).toBe(
    'At station 633\u00a0mm, off the ground for 121\u00a0ms; 3 hits, 20\u00a0% of 1.2\u00a0kN at −3.1°.',
  );
  // Words that only begin like a unit are words.
  expect(unbroken('2 more, 4 sides, 5 tonnes, 1 member')).toBe('2 more, 4 sides, 5 tonnes, 1 member');
});
