import type { Problem } from '../../shared/problem.ts';
import type { Standing } from '../../shared/recording.ts';

/** Unbalanced force over weight above which the loads are no standing loads: the accuracy promised for them. */
const RESTLESS = 0.001;

/** The problem of a vehicle that never came to rest; none if it did. */
export function restlessness({ residual, loads }: Standing, severity: Problem['severity']): Problem[] {
  if (residual <= RESTLESS && loads.every(Number.isFinite)) return [];
  return [
    {
      path: 'vehicle',
      message: 'does not come to rest where it starts, so shares of its standing loads mean little',
      hint: 'is there a spring, bar or stop for every member, and does the ground hold the vehicle at run.start?',
      severity,
    },
  ];
}
