import { type Compound, wheelLine } from '../compounds/compound.ts';
import { documentOf, type StartingLayout } from './layout.ts';

/** An axle line bolted to the chassis: the least that a vehicle can stand on. */
const bolted: Compound = {
  id: 'bolted',
  title: 'Wheels on the chassis',
  says: 'An axle line bolted to the chassis.',
  axles: 1,
  reach: 0,
  make: (berth) => ({
    members: [],
    elements: [],
    masses: [],
    wheels: [wheelLine(berth, berth.wheels[0] ?? berth.label, 'chassis')],
  }),
};

/** A frame on four wheels without any suspension. */
export const nothing: StartingLayout = {
  id: 'nothing',
  title: 'nothing but a frame',
  says: 'A frame with two axle lines bolted to it: the least that stands. Everything else is added by hand.',
  usual: { wheelRadius: 0.055, wheelbase: 0.3, mass: 4 },
  make: (size) =>
    documentOf(
      'truck',
      [
        { compound: bolted, x: 0, label: 'front', wheels: ['front'] },
        { compound: bolted, x: -size.wheelbase, label: 'rear', wheels: ['rear'] },
      ],
      size,
    ),
};
