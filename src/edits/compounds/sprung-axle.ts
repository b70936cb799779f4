import { roundFigure } from '../figures.ts';
import {
  axleMass,
  type Compound,
  lengthText,
  massOn,
  pointFrom,
  springing,
  sprungLoad,
  wheelLine,
} from './compound.ts';

/** A beam axle that moves up and down between two springs with their dampers. */
export const sprungAxle: Compound = {
  id: 'sprung-axle',
  title: 'Axle on springs',
  says: 'A beam axle on an upright guide with two springs and two dampers.',
  axles: 1,
  reach: 0,
  make(berth) {
    const { label, radius, wheels } = berth;
    const name = `${label}-axle`;
    const { rate, damping } = springing(berth);
    return {
      members: [
        {
          name,
          kind: 'guided-axle',
          at: pointFrom(berth, 0, 0),
          bump: lengthText(0.35 * radius),
          droop: lengthText(0.35 * radius),
        },
      ],
      elements: [
        {
          name: `${label} springs`,
          kind: 'linear-spring',
          on: { member: name },
          count: 2,
          rate: roundFigure(rate / 2, 'stiffness'),
          preload: roundFigure(sprungLoad(berth) / 2, 'force', 3),
        },
        {
          name: `${label} dampers`,
          kind: 'damper',
          on: { member: name },
          count: 2,
          bump: roundFigure((0.7 * damping) / 2, 'damping'),
          rebound: roundFigure((1.3 * damping) / 2, 'damping'),
        },
      ],
      wheels: [wheelLine(berth, wheels[0] ?? label, name)],
      masses: [massOn(berth, `${label} axle beam`, name, axleMass(berth), [0, 0], 0.3 * radius)],
    };
  },
};
