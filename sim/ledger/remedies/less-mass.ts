import { formatShare } from '../../../shared/units.ts';
import { withMore } from '../load.ts';
import { greatestMass } from '../mass.ts';
import { figureWords } from '../words.ts';
import type { Remedy } from './remedy.ts';

/** Less mass: how light it has to come out for everything that depends on mass to hold. */
export const lessMass: Remedy = {
  kind: 'less-mass',
  title: 'Less mass',
  find({ scenario, ground, stations }) {
    const found = greatestMass(scenario, ground, { stations });
    if (found.mass === null || found.more === null || found.more >= 0) return [];
    const off = figureWords(-found.more, 'kg');
    return [
      {
        says: `Out at ${figureWords(found.mass, 'kg')}, ${off} (${formatShare(-found.more / found.today)}) lighter, all mass items alike.`,
        scenario: withMore(scenario, 'items', found.more),
        sets: [],
      },
    ];
  },
};
