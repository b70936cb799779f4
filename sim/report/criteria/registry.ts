import { reaches } from './reaches.ts';
import { timeOffGround } from './time-off-ground.ts';
import { wheelLoad } from './wheel-load.ts';

/** Every kind of criterion. A new one is its file and one line here. */
export const criterionKinds = [wheelLoad, timeOffGround, reaches] as const;
