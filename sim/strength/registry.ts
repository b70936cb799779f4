import { bar } from './kinds/bar.ts';
import { beam } from './kinds/beam.ts';
import { coil } from './kinds/coil.ts';
import { guide } from './kinds/guide.ts';
import { leaf } from './kinds/leaf.ts';
import { pin } from './kinds/pin.ts';
import { rod } from './kinds/rod.ts';
import { stop } from './kinds/stop.ts';

/** Every kind of strength entry: a new one is its file in kinds and one line here. */
export const strengthKinds = [pin, guide, rod, beam, bar, coil, leaf, stop] as const;
