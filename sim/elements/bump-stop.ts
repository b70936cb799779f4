import { defineElement } from './element.ts';
import { makeStop, stopFields } from './stop.ts';

/** Stop above: pressed when the member has risen by more than the clearance. */
export const bumpStop = defineElement({
  kind: 'bump-stop',
  title: 'Bump stop',
  acts: ['travel'],
  source: 'spring and damper that cannot pull, after Hunt & Crossley (1975); limit of our own',
  fields: stopFields,
  law: (p) => makeStop('bump', p.clearance, p.rate, p.damping),
  sample: { clearance: 0.015, rate: 40_000, damping: 30 },
  range: [-0.01, 0.03],
});
