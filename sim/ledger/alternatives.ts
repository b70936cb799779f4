import type { LedgerLine } from '../../shared/report.ts';
import { performanceOf } from '../driveline/performance.ts';
import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Scenario } from '../scenario/schema.ts';
import { crossRegardless, type LedgerCrossing, usualStations } from './crossing.ts';
import { counts, firstToGive, isBeside, isOver, keyOf } from './ledger.ts';
import { remedies } from './remedies/registry.ts';
import { type Change, type Put, type Remedy, type Trouble, tryOut } from './remedies/remedy.ts';

/** One change that may help, and what comes of it: all computed anew by a crossing of the changed vehicle. */
export interface Alternative {
  readonly kind: string;
  readonly title: string;
  /** What is changed, as a sentence. */
  readonly says: string;
  /** Figures that change, for `--set`; empty where more than figures do. */
  readonly sets: readonly Put[];
  /** The vehicle with the change, where it is one to look at. */
  readonly scenario: Scenario;
  /** Whether everything with a known limit holds then. */
  readonly holds: boolean;
  /** What gives first then; where nothing does, what is nearest to its limit. */
  readonly first: LedgerLine | undefined;
  /** kg, and m/s on the level; undefined where it is not known. */
  readonly mass: number;
  readonly topSpeed: number | undefined;
}

/** What may be told besides the scenario. */
export interface AlternativeOptions {
  readonly stations?: number;
  /** The crossing as it is today, where it was made before. */
  readonly today?: LedgerCrossing;
  /** Told before each kind of change is tried: the share that is done, 0 to 1, and what comes next. */
  readonly progress?: (share: number, next: string) => void;
}

/**
 * What would help the part that gives first: those kinds of changes that apply, side by side, each with its cost in speed
 * and mass and with what gives first then. Empty when nothing gives.
 */
export function alternativesOf(
  scenario: Scenario,
  ground: Ground,
  options: AlternativeOptions = {},
): Alternative[] {
  const { stations = usualStations } = options;
  const today = options.today ?? crossRegardless(scenario, ground, stations);
  const first = firstToGive(today.ledger.lines);
  if (first === undefined) return [];
  const trouble: Trouble = { scenario, ground, stations, today, first };
  return (remedies as readonly Remedy[]).flatMap((remedy, i) => {
    options.progress?.(i / remedies.length, remedy.title);
    return remedy.find(trouble).flatMap((change) => outcomeOf(trouble, remedy, change) ?? []);
  });
}

/** Top speed on the level, m/s; undefined without a drive line. */
export const topSpeedOf = (mechanism: Mechanism): number | undefined =>
  performanceOf(mechanism)?.topSpeed ?? undefined;

function outcomeOf(trouble: Trouble, { kind, title }: Remedy, change: Change): Alternative | undefined {
  const { mended = [], scenario, says, sets } = change;
  const crossed = scenario === trouble.scenario ? trouble.today : tryOut(trouble, scenario);
  if (crossed === undefined) return undefined;
  const lines = crossed.ledger.lines.filter(
    (line) => counts(line) && !isBeside(line) && !mended.includes(keyOf(line)),
  );
  return {
    kind,
    title,
    says,
    sets,
    scenario,
    holds: !lines.some(isOver),
    first: firstToGive(lines) ?? lines[0],
    mass: crossed.mechanism.mass,
    topSpeed: topSpeedOf(crossed.mechanism),
  };
}
