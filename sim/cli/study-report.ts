import type { Report } from '../../shared/report.ts';
import type { Answer } from '../studies/study.ts';

type Head = Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg' | 'pitchInertia' | 'problems' | 'pass'>;

/** What a study looks at. */
export interface StudiedMeasure {
  /** As it is asked for: 'leastLoadShare', 'wheelLeastLoad[rear]', 'criteria[0]'. */
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly better: 'more' | 'less';
}

/** How much one figure, or one pin of several points, matters. */
export interface InfluenceReport {
  /** Figure with names: 'members[rear-arm].pivot.x'; 'middle-arm and rear-arm: pivot x' for a shared pin. */
  readonly name: string;
  /** Places in the document that move, for `--set`. */
  readonly paths: readonly string[];
  /** Today's value and how much it is turned, SI: by 1 mm, 1° or 1 %. */
  readonly now: number;
  readonly unit: string;
  readonly per: string;
  readonly step: number;
  /** Change of the measure for that, in its own unit. */
  readonly change: number;
}

/** What `matters` prints. */
export interface MattersReport extends Head {
  readonly mode: 'matters';
  readonly measure: StudiedMeasure;
  readonly today: Answer;
  /** Where the worst of it lies between stations; null where it was not looked for. */
  readonly worst: { readonly value: number; readonly station: number; readonly of?: string } | null;
  readonly by: 'derivative' | 'crossings';
  readonly why: string | null;
  readonly influences: readonly InfluenceReport[];
  /** Number of figures that change nothing. */
  readonly idle: number;
  readonly untried: readonly string[];
}

/** One side of a map. */
export interface SideReport {
  readonly name: string;
  readonly unit: string;
  readonly now: number;
  readonly from: number;
  readonly to: number;
  readonly steps: number;
}

/** A point of a map that is worth naming. */
export interface MapPlace extends Answer {
  readonly x: number;
  readonly z: number;
}

/** What `map` prints. Rows go upwards (z), columns along x. */
export interface MapReport extends Head {
  readonly mode: 'map';
  readonly plane: { readonly name: string; readonly kind: string };
  readonly measure: StudiedMeasure;
  readonly x: SideReport;
  readonly z: SideReport;
  readonly today: Answer;
  readonly best: MapPlace | null;
  /** Pivot height at which the drive moves no load within the bogie, m; null where that is not so. */
  readonly evenPivot: number | null;
  /** Row by row; null where there is no answer. */
  readonly values: readonly (readonly (number | null)[])[];
  readonly holds: readonly (readonly boolean[])[];
}
