import { formatQuantity } from '../../../shared/units.ts';
import { topSpeedBelow } from '../../driveline/performance.ts';
import { jointReaches } from '../../driveline/reach.ts';
import type { WholeCheck } from './check.ts';

/** Angle beyond which no joint of any kind turns, rad. Common practice, no source. */
const steepest = (80 * Math.PI) / 180;

/** Joints bend no further than they can, with the suspension at its stops. */
export const jointsBend: WholeCheck = ({ mechanism }, problems) => {
  for (const { part, angle, pose } of jointReaches(mechanism)) {
    const { name, index, law } = mechanism.driveline?.parts[part] ?? {};
    const most = law?.angled?.mostAngle ?? steepest;
    if (angle <= most) continue;
    const where =
      pose.length === 0
        ? 'as drawn'
        : `with ${pose.map(({ member, side }) => `'${member}' at its ${side} stop`).join(' and ')}`;
    problems.warn(
      `vehicle.driveline.parts[${index}].mostAngle`,
      `'${name}' bends by ${formatQuantity(angle, 'angle')} ${where}, and can take ${formatQuantity(most, 'angle')}`,
      'shorten the travel, lengthen the shaft, or tilt what holds the joint',
    );
  }
};

/** The target speed can be held on the level. */
export const speedIsReached: WholeCheck = ({ mechanism }, problems) => {
  if (mechanism.driveline === undefined) return;
  const target = Math.abs(mechanism.drive.speed);
  const top = topSpeedBelow(mechanism, target);
  if (top === undefined) return;
  problems.warn(
    'vehicle.drive.speed',
    `is ${formatQuantity(target, 'speed')}, and the drive line ${top === null ? 'does not move it on the level' : `reaches ${formatQuantity(top, 'speed')} on the level`}`,
    'choose a lower speed, or another ratio, motor or battery',
  );
};
