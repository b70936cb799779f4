import type { PartSort } from '../../sim/driveline/part.ts';

/** Signs of parts, our own: plain lines on a field of 20 × 16 px round the middle, the source's side on the left. */
const kinds: Readonly<Record<string, string>> = {
  motor: 'M-7 -5h9v10h-9zM2 0h6M-4 -5v10M-1 -5v10',
  engine: 'M-7 -5h9v10h-9zM2 0h6M-6 2l2 -4 2 4 2 -4 2 4',
  reduction: 'M-8 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M-2 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0',
  'hub-reduction': 'M-5 2a5 5 0 1 0 10 0a5 5 0 1 0 -10 0M-2 -5a2 2 0 1 0 4 0a2 2 0 1 0 -4 0',
  gearbox: 'M-8 -6h16v12h-16zM-4 -3v6M0 -1v4M4 -4v4M-4 0h8',
  shaft: 'M-9 0h18M-9 -3v6M9 -3v6',
  'universal-joint': 'M-10 0h4M10 0h-4M-6 -4v8M6 -4v8M-4 -4l8 8M-4 4l8 -8',
  'constant-velocity-joint':
    'M-10 0h5M5 -2l5 -2M-5 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0M-2 0h.01M2 -1h.01M0 2h.01',
  differential: 'M0 -6l6 6 -6 6 -6 -6zM-10 0h4M6 0h4M0 -6v-2M0 6v2',
  clutch: 'M-9 0h7M-2 -6v12M2 -6v12M2 0h7',
  freewheel: 'M-9 0h7M-2 -6v12M1 -5l6 5 -6 5z',
  winch: 'M-6 -6v12M6 -6v12M-6 -3h12M-6 0h12M-6 3h12',
};

const sorts: Readonly<Record<PartSort, string>> = {
  motor: 'motor',
  gear: 'reduction',
  shaft: 'shaft',
  joint: 'universal-joint',
  differential: 'differential',
  clutch: 'clutch',
  winch: 'winch',
};

/** The sign of a kind of part; of a kind without one, that of its sort. */
export const symbolOf = (kind: string, sort: PartSort): string =>
  kinds[kind] ?? kinds[sorts[sort]] ?? 'M-8 0h16';

/** Beside the plate of a part past its limit. */
export const OVER_MARK = 'M-12 -13l4.5 -8 4.5 8zM-7.5 -18.5v2.5M-7.5 -14.6v.2';
