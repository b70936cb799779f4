import { formatQuantity } from '../../shared/units.ts';
import { type Layer, turnsKept } from './drum.ts';
import type { WinchTask } from './fields.ts';
import { endLoad } from './line.ts';
import type { WinchPower } from './power.ts';
import type { Winch } from './winch.ts';

/** Drum diameter over rope diameter below which a rope wears out early. Common practice, no source. */
const leastBend = { wire: 10, synthetic: 8 } as const;

/** What else is worth knowing of a haul with this tension of the line on the drum, N. */
export function remarksOf(
  winch: Winch,
  power: WinchPower,
  layers: readonly Layer[],
  task: WinchTask,
  tension: number,
): string[] {
  const { rope, drum } = winch;
  const newtons = (force: number) => formatQuantity(force, 'force');
  const first = layers[0];
  const most = first === undefined ? 0 : power.stall / (first.diameter / 2);
  const allowed = rope.strength === undefined ? undefined : rope.strength / rope.safety;
  const remarks: string[] = [];
  if (task.slope !== 0 && tension === 0)
    remarks.push('It rolls that way by itself: the rope only holds it back.');
  if (allowed !== undefined && most > allowed)
    remarks.push(
      `At standstill the motor pulls ${newtons(most)} from the bare drum, more than the rope is to bear (${newtons(allowed)}): stop before it stalls.`,
    );
  if (drum.core < leastBend[rope.kind] * rope.diameter)
    remarks.push(
      `The bare drum is ${(drum.core / rope.diameter).toFixed(1)} times as thick as the rope; ${leastBend[rope.kind]} times is usual (common practice, no source).`,
    );
  if (!winch.reduction.locks && winch.brake === undefined)
    remarks.push(
      'Nothing is known to hold the drum when the motor stops: neither a brake nor a drive that locks itself.',
    );
  if (winch.from >= 0) remarks.push('Turned by the drive line, with the wheels let go meanwhile.');
  for (const { name, law, count, share } of power.motors) {
    const torque = (((tension * (layers.at(-1)?.diameter ?? 0)) / 2) * power.torquePer * share) / count;
    if (law.continuousTorque !== undefined && torque > law.continuousTorque)
      remarks.push(`'${name}' can do that for a short time only: it gets too hot.`);
  }
  if (drum.flange === undefined)
    remarks.push('The flanges of the drum are not known: whether the rope fits is not checked.');
  remarks.push(
    `At least ${turnsKept} turns stay on the drum: by friction its fastening then holds no more than ${newtons(endLoad(tension, turnsKept))}.`,
  );
  return remarks;
}
