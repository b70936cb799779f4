import { roundFigure } from '../figures.ts';
import { axleMass, type Compound, massOn, pointFrom, springing, sprungLoad, wheelLine } from './compound.ts';

/** Way from the hub to the pivot along the level and up, in wheel radii. */
const LEVER = 1.2;
const RISE = 0.35;

/** An axle line on swinging arms that a torsion bar on either side presses down. */
export const torsionArm: Compound = {
  id: 'torsion-arm',
  title: 'Trailing arm with torsion bar',
  says: 'A wheel on each side on an arm that a torsion bar at its pivot springs.',
  axles: 1,
  reach: 0,
  make(berth) {
    const { label, radius, inward, wheels } = berth;
    const name = `${label}-arm`;
    // The wheel's load acts at the level lever of the arm; rates go with its square.
    const lever = LEVER * radius;
    const { rate, damping } = springing(berth);
    return {
      members: [
        {
          name,
          kind: 'arm',
          pivot: pointFrom(berth, LEVER * inward, RISE),
          end: pointFrom(berth, 0, 0),
          bump: '20 deg',
          droop: '20 deg',
        },
      ],
      elements: [
        {
          name: `${label} torsion bars`,
          kind: 'torsion-bar',
          on: { member: name },
          count: 2,
          rate: roundFigure((rate * lever ** 2) / 2, 'torsionStiffness'),
          preload: roundFigure((sprungLoad(berth) * lever) / 2, 'torque', 3),
          damping: roundFigure((damping * lever ** 2) / 2, 'torsionDamping'),
        },
      ],
      wheels: [wheelLine(berth, wheels[0] ?? label, name)],
      masses: [massOn(berth, `${label} arms`, name, axleMass(berth), [0, 0], 0.5 * lever)],
    };
  },
};
