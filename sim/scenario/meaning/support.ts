import { formatShare } from '../../../shared/units.ts';
import type { Coordinate, Mechanism } from '../../mechanism/mechanism.ts';
import type { WholeCheck } from './check.ts';

/** Bodies that an element acts between. */
function touched(mechanism: Mechanism, coordinate: Coordinate): number[] {
  if (coordinate.kind === 'span') return [coordinate.a.body, coordinate.b.body];
  if (coordinate.kind === 'lift') return [coordinate.body, coordinate.parent];
  const joint = mechanism.joints[coordinate.joint];
  return joint === undefined ? [] : [joint.child, joint.parent];
}

/** Every guided or linked axle has something that carries it; without it the vehicle sits down on nothing. */
export const axlesAreCarried: WholeCheck = ({ scenario, mechanism }, problems) => {
  const carried = new Set(mechanism.elements.flatMap((element) => touched(mechanism, element.coordinate)));
  const moved = mechanism.joints.filter((joint) => joint.kind !== 'hinge' && !carried.has(joint.child));
  for (const joint of moved) {
    const i = scenario.vehicle.members.findIndex((member) => member.name === joint.name);
    problems.warn(
      `vehicle.members[${i}]`,
      `nothing carries '${joint.name}': no spring and no stop acts on it`,
      'add an element on it, or bump and droop stops',
    );
  }
};

/** Tyres carry the mean load with less than half of their radius pressed in; past all of it there is no tyre left. */
export const tyresCarry: WholeCheck = ({ scenario, mechanism }, problems) => {
  const wheels = scenario.vehicle.wheels.reduce((sum, wheel) => sum + wheel.count, 0);
  const load = (mechanism.mass * mechanism.gravity) / wheels;
  scenario.vehicle.wheels.forEach((wheel, i) => {
    const pressed = load / wheel.tyre.stiffnessPerWheel / wheel.radius;
    const path = `vehicle.wheels[${i}].tyre.stiffnessPerWheel`;
    const hint = 'is it the rate of ONE wheel, in the right unit?';
    const share = formatShare(pressed);
    if (pressed >= 1)
      problems.error(path, `lets the mean load press the tyre in by ${share} of its radius`, hint);
    else if (pressed > 0.5)
      problems.warn(path, `lets the mean load press the tyre in by ${share} of its radius`, hint);
  });
};

/** A vehicle that is to move has a driven wheel with torque. */
export const driveCanMove: WholeCheck = ({ scenario }, problems) => {
  const { speed, driven, torquePerWheel } = scenario.vehicle.drive;
  if (speed === 0 || scenario.vehicle.driveline !== undefined) return;
  if (driven !== 'all' && driven.length === 0)
    problems.warn('vehicle.drive.driven', 'is empty, so nothing drives the vehicle', 'name wheels, or "all"');
  else if (torquePerWheel === undefined)
    problems.error(
      'vehicle.drive.torquePerWheel',
      'is missing, and there is no drive line that would tell it',
      'give the greatest torque at ONE wheel, or a driveline',
    );
  else if (torquePerWheel === 0)
    problems.warn('vehicle.drive.torquePerWheel', 'is 0, so nothing drives the vehicle');
};
