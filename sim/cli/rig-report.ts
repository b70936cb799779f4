import type { Report } from '../../shared/report.ts';
import type { SteeringStudy } from '../steering/study.ts';
import type { WinchStudy } from '../winch/study.ts';

type Head = Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg' | 'pitchInertia' | 'problems' | 'pass'>;

/** What `winch` prints. */
export interface WinchReport extends Head {
  readonly mode: 'winch';
  readonly winches: readonly WinchStudy[];
}

/** What `steer` prints. */
export interface SteerReport extends Head {
  readonly mode: 'steer';
  /** Where the loads are from: as it stands at its start, or the heaviest station of a crawl. */
  readonly loads: 'stand' | 'crawl';
  /** Each steering; `station`, m, with the loads of a crawl. */
  readonly steering: readonly (SteeringStudy & { readonly station?: number })[];
}
