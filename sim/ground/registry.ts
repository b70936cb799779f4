import { bumps } from './bumps.ts';
import { cosineBump } from './cosine-bump.ts';
import { csv } from './csv.ts';
import { flat } from './flat.ts';
import { logs } from './logs.ts';
import { ramp } from './ramp.ts';
import { rough } from './rough.ts';
import { step } from './step.ts';
import { table } from './table.ts';
import { trench } from './trench.ts';
import { vDitch } from './v-ditch.ts';
import { washboard } from './washboard.ts';

/** Every kind of ground. A new kind is its file and one line here. */
export const groundKinds = [
  flat,
  step,
  ramp,
  trench,
  vDitch,
  bumps,
  logs,
  cosineBump,
  washboard,
  rough,
  table,
  csv,
] as const;
