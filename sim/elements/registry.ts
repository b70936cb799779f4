import { bumpStop } from './bump-stop.ts';
import { damper } from './damper.ts';
import { droopStop } from './droop-stop.ts';
import { linearSpring } from './linear-spring.ts';
import { progressiveSpring } from './progressive-spring.ts';
import { torsionBar } from './torsion-bar.ts';

/** All kinds of force element. A new kind is its file and one line here. */
export const elementKinds = [linearSpring, progressiveSpring, damper, torsionBar, bumpStop, droopStop] as const;
