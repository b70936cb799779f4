import { bumpStop } from './bump-stop.ts';
import { damper } from './damper.ts';
import { droopStop } from './droop-stop.ts';
import { guideFriction } from './guide-friction.ts';
import { leafSpring } from './leaf-spring.ts';
import { linearSpring } from './linear-spring.ts';
import { pivotFriction } from './pivot-friction.ts';
import { progressiveSpring } from './progressive-spring.ts';
import { rubberBlock } from './rubber-block.ts';
import { torsionBar } from './torsion-bar.ts';

/** All kinds of force element. A new kind is its file and one line here. */
export const elementKinds = [
  linearSpring,
  progressiveSpring,
  leafSpring,
  rubberBlock,
  torsionBar,
  damper,
  pivotFriction,
  guideFriction,
  bumpStop,
  droopStop,
] as const;
