import { clutch } from './kinds/clutch.ts';
import { constantVelocityJoint } from './kinds/constant-velocity-joint.ts';
import { differential } from './kinds/differential.ts';
import { engine } from './kinds/engine.ts';
import { freewheel } from './kinds/freewheel.ts';
import { gearbox } from './kinds/gearbox.ts';
import { hubReduction } from './kinds/hub-reduction.ts';
import { motor } from './kinds/motor.ts';
import { reduction } from './kinds/reduction.ts';
import { shaft } from './kinds/shaft.ts';
import { universalJoint } from './kinds/universal-joint.ts';
import { winch } from './kinds/winch.ts';

/** Every kind of drive line part: a new one is its file in kinds and one line here. */
export const partKinds = [
  motor,
  engine,
  reduction,
  hubReduction,
  gearbox,
  shaft,
  universalJoint,
  constantVelocityJoint,
  differential,
  clutch,
  freewheel,
  winch,
] as const;
