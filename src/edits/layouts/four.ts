import { sprungAxle } from '../compounds/sprung-axle.ts';
import { documentOf, type StartingLayout } from './layout.ts';

/** Two axles on springs. */
export const four: StartingLayout = {
  id: '4x4',
  title: '4×4',
  says: 'Two axles on springs.',
  usual: { wheelRadius: 0.06, wheelbase: 0.29, mass: 3.6 },
  make: (size) =>
    documentOf(
      '4×4',
      [
        { compound: sprungAxle, x: 0, label: 'front', wheels: ['front'] },
        { compound: sprungAxle, x: -size.wheelbase, label: 'rear', wheels: ['rear'] },
      ],
      size,
    ),
};
