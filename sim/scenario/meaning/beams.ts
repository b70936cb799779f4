import { formatQuantity } from '../../../shared/units.ts';
import type { WholeCheck } from './check.ts';

/** A beam that only rocks carries its wheels on both sides of its pivot; otherwise it falls over. */
export const beamsBalance: WholeCheck = ({ scenario, mechanism }, problems) => {
  const { members, elements } = scenario.vehicle;
  members.forEach((member, i) => {
    if (member.kind !== 'bogie-beam') return;
    const held =
      elements.some((e) => 'member' in e.on && e.on.member === member.name) || mechanism.rods.length > 0;
    const body = mechanism.members.find((m) => m.name === member.name)?.body ?? -1;
    const hangsOn = (b: number): boolean =>
      b === body || (b > 0 && hangsOn(mechanism.bodies[b]?.parent ?? -1));
    const hubs = mechanism.wheels.filter((w) => hangsOn(w.body)).map((w) => w.hub.x);
    const path = `vehicle.members[${i}].pivot`;
    if (hubs.length === 0) {
      problems.warn(
        path,
        `no wheel hangs on '${member.name}'`,
        'name it in the `on` of the wheels that it carries',
      );
      return;
    }
    const [rear, front] = [Math.min(...hubs), Math.max(...hubs)];
    if (held || (member.pivot.x > rear && member.pivot.x < front)) return;
    const span = `${formatQuantity(rear, 'length', 4)} to ${formatQuantity(front, 'length', 4)}`;
    problems.error(
      path,
      `is at x = ${formatQuantity(member.pivot.x, 'length', 4)}, outside of the wheels that the beam carries (${span}): it falls over`,
      'move the pivot between the wheels',
    );
  });
};
