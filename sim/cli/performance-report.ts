import type { Report } from '../../shared/report.ts';
import type { CrossingFigures } from '../driveline/crossing.ts';
import type { Performance } from '../driveline/performance.ts';

/** What `performance` prints. */
export interface PerformanceReport
  extends Pick<Report, 'title' | 'vehicle' | 'cg' | 'pitchInertia' | 'problems' | 'pass'>,
    Performance {
  readonly mode: 'performance';
  /** A crawl over the scenario's ground, with `--crossing` only. */
  readonly crossing?: CrossingFigures;
}
