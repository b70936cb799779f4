import { rockerOf } from '../compounds/rocker.ts';
import { documentOf, type StartingLayout } from './layout.ts';

/** A rocker with a bogie on each side, no springs. */
export const rocking: StartingLayout = {
  id: 'rocker',
  title: 'rocker',
  says: 'Six wheels on rockers that carry bogies: no springs, all wheels carry alike.',
  usual: { wheelRadius: 0.05, wheelbase: 0.225, mass: 4 },
  make(size) {
    const compound = rockerOf(size.wheelbase / size.wheelRadius);
    const wheels = ['front', 'middle', 'rear'];
    return documentOf('six-wheeler on rockers', [{ compound, x: 0, label: 'side', wheels }], size);
  },
};
