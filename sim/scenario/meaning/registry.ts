import { vehicleBalances } from './balance.ts';
import { beamsBalance } from './beams.ts';
import { bodiesAreFew } from './bodies.ts';
import { carriersHaveBodies } from './carriers.ts';
import type { EntryCheck, WholeCheck } from './check.ts';
import { runHasAWay } from './course.ts';
import { drivelineDecides, drivelineFits, drivelineTurns } from './driveline.ts';
import { jointsBend, speedIsReached } from './driveline-reach.ts';
import { elementsAct } from './elements.ts';
import { loopsMove } from './loops.ts';
import { recordingFits } from './recording.ts';
import { sharingNamesDriven } from './sharing.ts';
import { startIsClear } from './start.ts';
import { strengthFits } from './strength.ts';
import { axlesAreCarried, driveCanMove, tyresCarry } from './support.ts';
import { hubsAreAboveGround } from './wheels.ts';
import { winchesAndSteeringMakeSense } from './winches.ts';

/** Checks of single entries. A new check is its function and one line here. */
export const entryChecks: readonly EntryCheck[] = [
  carriersHaveBodies,
  elementsAct,
  hubsAreAboveGround,
  bodiesAreFew,
  drivelineFits,
  strengthFits,
];

/** Checks of the whole, run once every entry makes sense. A new check is its function and one line here. */
export const wholeChecks: readonly WholeCheck[] = [
  loopsMove,
  beamsBalance,
  vehicleBalances,
  axlesAreCarried,
  tyresCarry,
  driveCanMove,
  sharingNamesDriven,
  drivelineDecides,
  drivelineTurns,
  jointsBend,
  speedIsReached,
  winchesAndSteeringMakeSense,
  runHasAWay,
  recordingFits,
  startIsClear,
];
