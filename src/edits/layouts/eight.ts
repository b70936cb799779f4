import { bogie } from '../compounds/bogie.ts';
import { documentOf, type StartingLayout } from './layout.ts';

/** Two bogies. */
export const eight: StartingLayout = {
  id: '8x8',
  title: '8×8 with two bogies',
  says: 'Four axles on two rocking beams.',
  usual: { wheelRadius: 0.05, wheelbase: 0.29, mass: 6.5 },
  make: (size) =>
    documentOf(
      '8×8',
      [
        { compound: bogie, x: 0, label: 'front', wheels: ['first', 'second'] },
        { compound: bogie, x: -size.wheelbase, label: 'rear', wheels: ['third', 'fourth'] },
      ],
      size,
    ),
};
