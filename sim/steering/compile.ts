import { didYouMean } from '../../shared/near.ts';
import type { Problems } from '../../shared/problem.ts';
import type { SteeringEntry } from './fields.ts';
import type { SteeredLine, Steering } from './steering.ts';

/** What a steering needs to know of an axle line of the document. */
export interface SteerableWheel {
  readonly name: string;
  readonly radius: number;
  readonly width?: number | undefined;
  readonly tyre: { readonly grip: number };
}

/** Compiles the steerings of a document. Axle lines that do not exist are problems; they are left out. */
export function compileSteering(
  entries: readonly SteeringEntry[],
  wheels: readonly SteerableWheel[],
  problems: Problems,
): Steering[] {
  const names = wheels.map((w) => w.name);
  return entries.map((entry, index) => ({
    ...entry,
    index,
    lines: entry.lines.flatMap((line, i): SteeredLine[] => {
      const wheel = names.indexOf(line.wheel);
      const found = wheels[wheel];
      if (found === undefined) {
        problems.error(
          `vehicle.steering[${index}].lines[${i}].wheel`,
          `no axle line is called '${line.wheel}'`,
          didYouMean(line.wheel, names) ?? `known: ${names.join(', ')}`,
        );
        return [];
      }
      return [
        {
          wheel,
          most: line.most,
          // the axis leans inward at its top, so it meets the ground further out than it passes the hub
          offset: line.offset ?? line.hubOffset - found.radius * Math.tan(line.inclination),
          fromHub: line.offset === undefined,
          inclination: line.inclination,
          caster: line.caster,
          width: line.width ?? found.width,
          length: line.length,
          friction: line.friction ?? found.tyre.grip,
        },
      ];
    }),
  }));
}
