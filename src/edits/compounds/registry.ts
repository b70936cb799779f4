import { bogie } from './bogie.ts';
import { rocker } from './rocker.ts';
import { rodAxle } from './rod-axle.ts';
import { sprungAxle } from './sprung-axle.ts';
import { torsionArm } from './torsion-arm.ts';

/** Everything that is added as one thing. A new compound is its file and one line here. */
export const compounds = [sprungAxle, torsionArm, rodAxle, bogie, rocker] as const;
