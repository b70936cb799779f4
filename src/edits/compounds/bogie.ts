import { axleMass, type Compound, massOn, pointFrom, wheelLine } from './compound.ts';

/** Half of the way between its axles, in wheel radii. */
const HALF = 1.2;

/** A beam that rocks about its middle, with an axle at either end. */
export const bogie: Compound = {
  id: 'bogie',
  title: 'Bogie with two axles',
  says: 'A beam that rocks about a pivot, with an axle line at each end: both carry alike.',
  axles: 2,
  reach: HALF,
  make(berth) {
    const { label, radius, wheels } = berth;
    const name = `${label}-bogie`;
    return {
      members: [
        {
          name,
          kind: 'bogie-beam',
          pivot: pointFrom(berth, 0, 0.25),
          front: pointFrom(berth, HALF, 0),
          rear: pointFrom(berth, -HALF, 0),
          bump: '25 deg',
          droop: '25 deg',
        },
      ],
      elements: [],
      wheels: [
        wheelLine(berth, wheels[0] ?? `${label} front`, name, HALF),
        wheelLine(berth, wheels[1] ?? `${label} rear`, name, -HALF),
      ],
      masses: [massOn(berth, `${label} beams`, name, 2 * axleMass(berth), [0, 0.1], HALF * radius)],
    };
  },
};
