import type { EntryCheck } from './check.ts';

/** Nothing hangs on a member that has no body, such as a rod. */
export const carriersHaveBodies: EntryCheck = (draft, tree, problems) => {
  const without = new Set(tree.members.filter((m) => m.body < 0).map((m) => m.name));
  const tell = (name: string | undefined, path: string) => {
    if (name !== undefined && without.has(name))
      problems.error(path, `'${name}' is a rod and carries nothing`, 'hang it on a body that the rod joins');
  };
  draft.wheels.forEach((wheel, i) => {
    tell(wheel?.on, `vehicle.wheels[${i}].on`);
    const reaction = wheel?.reaction;
    if (typeof reaction === 'object') {
      tell(reaction.train, `vehicle.wheels[${i}].reaction.train`);
      tell(reaction.motorOn, `vehicle.wheels[${i}].reaction.motorOn`);
    } else tell(reaction, `vehicle.wheels[${i}].reaction`);
  });
  draft.masses.forEach((item, i) => {
    tell(item?.on, `vehicle.masses[${i}].on`);
  });
  draft.members.forEach((member, i) => {
    if (member === undefined) return;
    if ('on' in member) tell(member.on, `vehicle.members[${i}].on`);
    if (!('from' in member)) return;
    tell(member.from.on, `vehicle.members[${i}].from.on`);
    tell(member.to.on, `vehicle.members[${i}].to.on`);
  });
};
