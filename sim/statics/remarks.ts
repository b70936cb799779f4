import type { Problem } from '../../shared/problem.ts';
import type { Standing } from '../../shared/recording.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { effortsFor } from './ride-height.ts';

/**
 * What a builder should know of a vehicle that stands, as warnings: members that rest on a stop, with the effort that
 * would hold them as drawn, and wheels that carry nothing.
 */
export function standingRemarks(mechanism: Mechanism, standing: Standing): Problem[] {
  const members = mechanism.members.flatMap((member, m): Problem[] => {
    const motion = standing.motions[m] ?? 0;
    const side =
      member.bump !== undefined && motion >= member.bump
        ? 'bump'
        : member.droop !== undefined && -motion >= member.droop
          ? 'droop'
          : undefined;
    if (side === undefined) return [];
    const hint = neededAt(mechanism, m);
    return [
      {
        path: `vehicle.members[${m}]`,
        message: `'${member.name}' rests on its ${side} stop when the vehicle stands`,
        severity: 'warning',
        ...(hint === undefined ? {} : { hint }),
      },
    ];
  });
  const wheels = mechanism.wheels.flatMap((wheel, w): Problem[] =>
    (standing.loads[w] ?? 0) > 0
      ? []
      : [
          {
            path: `vehicle.wheels[${w}]`,
            message: `'${wheel.name}' carries nothing when the vehicle stands`,
            severity: 'warning',
            hint: 'lower its hub, soften the springs of the others, or move weight towards it',
          },
        ],
  );
  return [...members, ...wheels];
}

/** How much more the springs of a member would have to give to hold it as drawn on level ground. */
function neededAt(mechanism: Mechanism, m: number): string | undefined {
  const coordinate = mechanism.members[m]?.coordinate;
  if (coordinate?.kind !== 'joint') return undefined;
  const more = effortsFor(mechanism, [{ joint: coordinate.joint, at: 0 }])?.[0];
  if (more === undefined) return undefined;
  const size = formatQuantity(Math.abs(more), mechanism.members[m]?.unit === 'rad' ? 'torque' : 'force');
  return `its springs would have to give ${size} ${more < 0 ? 'more' : 'less'} to hold it as drawn`;
}
