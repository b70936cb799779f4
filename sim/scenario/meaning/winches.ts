import { tellSteering } from '../../steering/checks.ts';
import { tellWinch } from '../../winch/checks.ts';
import type { WholeCheck } from './check.ts';

/** Winches hold their rope and can be asked for their task; steerings reach their angles. */
export const winchesAndSteeringMakeSense: WholeCheck = ({ mechanism }, problems) => {
  for (const winch of mechanism.winches ?? []) tellWinch(winch, mechanism, problems);
  for (const steering of mechanism.steering ?? []) tellSteering(steering, problems);
};
