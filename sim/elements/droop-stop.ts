import { defineElement } from './element.ts';
import { makeStop, stopFields } from './stop.ts';

/** Stop below: pressed when the member has dropped by more than the clearance. */
export const droopStop = defineElement({
  kind: 'droop-stop',
  title: 'Droop stop',
  acts: ['travel'],
  source: 'spring and damper that cannot pull, after Hunt & Crossley (1975); limit of our own',
  fields: stopFields,
  law: (p) => makeStop('droop', p.clearance, p.rate, p.damping),
  sample: { clearance: 0.015, rate: 40_000, damping: 30 },
  range: [-0.03, 0.01],
});
