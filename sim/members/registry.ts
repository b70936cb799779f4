import { arm } from './arm.ts';
import { bogieBeam } from './bogie-beam.ts';
import { guidedAxle } from './guided-axle.ts';
import { housing } from './housing.ts';
import { linkAxle } from './link-axle.ts';
import { rigidAxle } from './rigid-axle.ts';
import { rod } from './rod.ts';

/** Every kind of suspension member: a new one is its file and one line here. */
export const memberKinds = [rigidAxle, guidedAxle, linkAxle, arm, bogieBeam, housing, rod] as const;
