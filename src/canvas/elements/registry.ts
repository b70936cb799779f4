import { linearCoil, progressiveCoil } from './coil.ts';
import { damper } from './damper.ts';
import { friction } from './friction.ts';
import { leaf } from './leaf.ts';
import { rubber } from './rubber.ts';
import { bumpStop, droopStop } from './stops.ts';
import { torsion } from './torsion.ts';

/** How each kind of element is drawn. A new kind is its file and one line here. */
export const elementDrawings = [
  linearCoil,
  progressiveCoil,
  torsion,
  damper,
  leaf,
  rubber,
  friction,
  bumpStop,
  droopStop,
] as const;
