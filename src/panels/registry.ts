import { lazy } from 'react';

/**
 * The panels beside the picture, in the order of their tabs. A new one is its file and one line here. Each is loaded
 * when it is first opened.
 */
export const panels = [
  {
    id: 'fields',
    title: 'Figures',
    Panel: lazy(async () => ({ default: (await import('./Fields.tsx')).Fields })),
  },
  {
    id: 'matters',
    title: 'Matters',
    Panel: lazy(async () => ({ default: (await import('./Matters.tsx')).Matters })),
  },
  {
    id: 'tune',
    title: 'Tune',
    Panel: lazy(async () => ({ default: (await import('../studying/Tune.tsx')).Tune })),
  },
  {
    id: 'limits',
    title: 'Limits',
    Panel: lazy(async () => ({ default: (await import('./Limits.tsx')).Limits })),
  },
  {
    id: 'joints',
    title: 'Joints',
    Panel: lazy(async () => ({ default: (await import('./Joints.tsx')).Joints })),
  },
  {
    id: 'ledger',
    title: 'Ledger',
    Panel: lazy(async () => ({ default: (await import('./ledger/Ledger.tsx')).Ledger })),
  },
  {
    id: 'winching',
    title: 'Winch and steering',
    Panel: lazy(async () => ({ default: (await import('./Winching.tsx')).Winching })),
  },
  {
    id: 'changes',
    title: 'Changes',
    Panel: lazy(async () => ({ default: (await import('./Changes.tsx')).Changes })),
  },
  {
    id: 'events',
    title: 'Events',
    Panel: lazy(async () => ({ default: (await import('./Events.tsx')).Events })),
  },
  {
    id: 'measures',
    title: 'Measures',
    Panel: lazy(async () => ({ default: (await import('./Measures.tsx')).Measures })),
  },
  {
    id: 'about',
    title: 'Notes',
    Panel: lazy(async () => ({ default: (await import('./About.tsx')).About })),
  },
] as const;
