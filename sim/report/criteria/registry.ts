import { bellyClearance } from './belly-clearance.ts';
import { gripUse } from './grip-use.ts';
import { loadSpread } from './load-spread.ts';
import { mass } from './mass.ts';
import { noStopHit } from './no-stop-hit.ts';
import { partUse } from './part-use.ts';
import { pitch } from './pitch.ts';
import { reaches } from './reaches.ts';
import { time } from './time.ts';
import { timeOffGround } from './time-off-ground.ts';
import { travelUsed } from './travel-used.ts';
import { wheelLoad } from './wheel-load.ts';

/** Every kind of criterion. A new one is its file and one line here. */
export const criterionKinds = [
  wheelLoad,
  timeOffGround,
  noStopHit,
  reaches,
  bellyClearance,
  pitch,
  gripUse,
  loadSpread,
  travelUsed,
  time,
  partUse,
  mass,
] as const;
