import type { MeasureKind } from '../criterion.ts';
import { chassisMeasure } from './chassis.ts';
import { clearanceMeasure } from './clearance.ts';
import { distanceMeasure } from './distance.ts';
import { driveShiftMeasure } from './drive-shift.ts';
import { dynamicLoadMeasure } from './dynamic-load.ts';
import { energyMeasure } from './energy.ts';
import { greatestLoadMeasure } from './greatest-load.ts';
import { gripMeasure } from './grip.ts';
import { leastLoadMeasure } from './least-load.ts';
import { loadSpreadMeasure } from './load-spread.ts';
import { timeMeasure } from './time.ts';
import { timeOffGroundMeasure } from './time-off-ground.ts';
import { travelMeasure } from './travel.ts';
import { tyreDepthMeasure } from './tyre-depth.ts';

/** Every kind of measure, in the order in which a report gives them. A new one is its file and one line here. */
export const measureKinds = [
  leastLoadMeasure,
  greatestLoadMeasure,
  timeOffGroundMeasure,
  loadSpreadMeasure,
  driveShiftMeasure,
  dynamicLoadMeasure,
  travelMeasure,
  chassisMeasure,
  clearanceMeasure,
  gripMeasure,
  tyreDepthMeasure,
  distanceMeasure,
  timeMeasure,
  energyMeasure,
] as const satisfies readonly MeasureKind[];
