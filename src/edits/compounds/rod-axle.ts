import type { Json } from '../../documents/json.ts';
import { roundFigure } from '../figures.ts';
import {
  axleMass,
  type Berth,
  type Compound,
  lengthText,
  massOn,
  pointFrom,
  springing,
  sprungLoad,
  wheelLine,
} from './compound.ts';

/** Where a spring or damper stands on the axle and hangs on the chassis, in wheel radii from the hub. */
const between = (berth: Berth, axle: string, x: number): Json => ({
  from: { on: 'chassis', ...pointFrom(berth, x, 1.2) },
  to: { on: axle, ...pointFrom(berth, x, 0.15) },
});

/** A beam axle held by a lower and an upper rod, on springs. */
export const rodAxle: Compound = {
  id: 'rod-axle',
  title: 'Beam axle on rods',
  says: 'A beam axle held by a lower and an upper rod, with two springs and two dampers.',
  axles: 1,
  reach: 0,
  make(berth) {
    const { label, radius, inward, wheels } = berth;
    const name = `${label}-axle`;
    const { rate, damping } = springing(berth);
    return {
      members: [
        {
          name,
          kind: 'link-axle',
          at: pointFrom(berth, 0, 0),
          lower: { parent: pointFrom(berth, 1.6 * inward, 0.05), axle: pointFrom(berth, 0, -0.2) },
          upper: { parent: pointFrom(berth, 1.3 * inward, 0.6), axle: pointFrom(berth, 0, 0.45) },
          bump: lengthText(0.35 * radius),
          droop: lengthText(0.35 * radius),
        },
      ],
      elements: [
        {
          name: `${label} springs`,
          kind: 'linear-spring',
          on: between(berth, name, 0),
          count: 2,
          rate: roundFigure(rate / 2, 'stiffness'),
          preload: roundFigure(sprungLoad(berth) / 2, 'force', 3),
        },
        {
          name: `${label} dampers`,
          kind: 'damper',
          on: between(berth, name, 0.15 * inward),
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
