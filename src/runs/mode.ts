/**
 * Ways to look at a vehicle on its ground: as it stands at its start, as it crosses in balance from station to station,
 * as it is driven in time.
 */
export const modes = [
  {
    id: 'stand',
    title: 'Stand',
    says: 'How it stands at its start: loads, travels, what rests on a stop',
    /** What is being done while the answer is on its way, and what was done when it is there. */
    doing: 'standing …',
    key: '1',
  },
  {
    id: 'crawl',
    title: 'Crawl',
    says: 'The whole crossing in balance, station by station, without inertia',
    doing: 'crawling …',
    key: '2',
  },
  {
    id: 'drive',
    title: 'Drive',
    says: 'Driven in time, with inertia and dampers',
    doing: 'driving …',
    key: '3',
  },
] as const;

export type Mode = (typeof modes)[number]['id'];

/** The row of a mode. */
export const modeOf = (mode: Mode): (typeof modes)[number] =>
  modes.find(({ id }) => id === mode) ?? modes[modes.length - 1] ?? modes[2];
