import { bogie } from '../compounds/bogie.ts';
import { sprungAxle } from '../compounds/sprung-axle.ts';
import { documentOf, type StartingLayout } from './layout.ts';

/** A sprung front axle and a bogie. */
export const six: StartingLayout = {
  id: '6x6',
  title: '6×6 with one bogie',
  says: 'A front axle on springs, and two axles on a rocking beam behind.',
  usual: { wheelRadius: 0.055, wheelbase: 0.33, mass: 6 },
  make: (size) =>
    documentOf(
      '6×6',
      [
        { compound: sprungAxle, x: 0, label: 'front', wheels: ['front'] },
        { compound: bogie, x: -size.wheelbase, label: 'rear', wheels: ['middle', 'rear'] },
      ],
      size,
    ),
};
