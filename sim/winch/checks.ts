import type { Problems } from '../../shared/problem.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { capacityOf, layersOf, ropeKept, turnsKept } from './drum.ts';
import type { WinchTask } from './fields.ts';
import type { Winch } from './winch.ts';

const metres = (length: number): string => formatQuantity(length, 'length');

/** Tells what is wrong with a winch: a rope that its drum cannot hold, two things that turn it, an impossible task. */
export function tellWinch(winch: Winch, mechanism: Mechanism, problems: Problems): void {
  const path = `vehicle.winches[${winch.index}]`;
  tellDrum(winch, path, problems);
  if (winch.motor !== undefined && winch.from >= 0)
    problems.error(`${path}.from`, 'turns a winch that has a motor of its own', 'leave one of the two out');
  if (winch.task !== undefined) tellTask(winch.task, mechanism, `${path}.task`, problems);
}

function tellDrum({ drum, rope }: Winch, path: string, problems: Problems): void {
  if (drum.width < rope.diameter) {
    problems.error(
      `${path}.drum.width`,
      `is ${metres(drum.width)}, less than the rope is thick (${metres(rope.diameter)})`,
      'not one turn fits: a wider drum or a thinner rope',
    );
    return;
  }
  if (drum.flange !== undefined && !(drum.flange > drum.core)) {
    problems.error(
      `${path}.drum.flange`,
      `is ${metres(drum.flange)}, no more than the bare drum (${metres(drum.core)})`,
      'it is the outer diameter of the flanges',
    );
    return;
  }
  const holds = capacityOf(layersOf({ drum, rope }));
  if (holds < rope.length * (1 - 1e-9))
    problems.error(
      `${path}.rope.length`,
      `is ${metres(rope.length)}, and the drum holds ${metres(holds)} of it`,
      'a shorter or thinner rope, a wider drum, or larger flanges',
    );
  const kept = ropeKept({ drum, rope });
  if (rope.length <= kept)
    problems.error(
      `${path}.rope.length`,
      `is ${metres(rope.length)}, no more than the ${turnsKept} turns that stay on the drum (${metres(kept)})`,
      'a longer rope',
    );
}

/** Tells what is wrong with a task for a winch of this vehicle. */
export function tellTask(task: WinchTask, { wheels }: Mechanism, path: string, problems: Problems): void {
  const low = wheels.reduce((least, w) => (w.radius < least.radius ? w : least));
  if (task.hole >= low.radius)
    problems.error(
      `${path}.hole`,
      `is ${metres(task.hole)}: not less than the radius of '${low.name}' (${metres(low.radius)})`,
      'a pull only presses such a wheel against the edge: give it a ramp, or lift it out',
    );
  if (task.anchor.height !== undefined && task.anchor.distance === undefined)
    problems.error(
      `${path}.anchor.distance`,
      'is missing: the angle of the rope follows from height and distance of the anchor',
      'say how far away the anchor is',
    );
}
