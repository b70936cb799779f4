import { formatQuantity } from '../../../shared/units.ts';
import type { EntryCheck } from './check.ts';

/** Heights in the drawing count from its ground level: a hub at or below it lies inside the ground. */
export const hubsAreAboveGround: EntryCheck = (draft, _tree, problems) => {
  draft.wheels.forEach((wheel, i) => {
    if (wheel === undefined) return;
    const path = `vehicle.wheels[${i}].at.z`;
    const height = formatQuantity(wheel.at.z, 'length');
    const hint = 'z counts from the drawn ground level: a wheel that stands on it has its hub one radius up';
    if (wheel.at.z <= 0)
      problems.error(path, `is ${height}, so the wheel's centre lies inside the ground`, hint);
    else if (wheel.at.z < 0.5 * wheel.radius)
      problems.warn(path, `is ${height}, so most of the wheel lies inside the ground`, hint);
  });
};
