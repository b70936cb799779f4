import type { Choice } from './choice.ts';
import { WorstSensor } from './derivative.ts';
import { type Knob, settingsFor } from './knob.ts';
import { numbersOf, sharedPins, type Turn, turnOf } from './numbers.ts';
import { type Answer, Study, type StudyAsk } from './study.ts';
import { type Worst, worstOf } from './worst.ts';

/** How much one knob matters. */
export interface Influence extends Turn {
  readonly knob: Knob;
  /** Change of the measure for one turn (1 mm, 1°, 1 %) upwards, in the measure's SI unit. */
  readonly change: number;
}

/** What matters most to a measure of a crossing. */
export interface Influences {
  readonly choice: Choice;
  /** Title and SI unit of the measure. */
  readonly title: string;
  readonly unit: string;
  /** The crossing as it is, and its worst place looked for between stations, where that can be. */
  readonly today: Answer;
  readonly worst?: { readonly value: number; readonly station: number; readonly of?: string };
  /**
   * 'derivative': exact, of the balance at the worst station. 'crossings': differences between whole crossings, where the
   * measure is no smooth extreme of one figure (see `why`).
   */
  readonly by: 'derivative' | 'crossings';
  readonly why?: string;
  /** Largest change first. Knobs that change nothing are not among them. */
  readonly list: readonly Influence[];
  /** Number of figures that change nothing, and names of those that could not be tried. */
  readonly idle: number;
  readonly untried: readonly string[];
}

/** How influences are to be found. */
export interface InfluenceAsk extends StudyAsk {
  /** 'crossings' for differences between whole crossings in any case. */
  readonly by?: 'crossings';
  /** Half the distance between the two crossings of a difference, in turns; 1 when left out. */
  readonly turns?: number;
  /** Told how much is done, 0 to 1. */
  readonly progress?: (share: number) => void;
}

/**
 * How much a measure of the crossing changes with every figure of the vehicle, and with its shared pins, each by 1 mm, 1°
 * or 1 %, largest first.
 * @throws RangeError for a measure that does not exist
 */
export function influencesOf(ask: InfluenceAsk): Influences {
  const study = new Study(ask);
  const knobs = [...sharedPins(study.scenario), ...numbersOf(study.scenario)];
  const worst = ask.by === 'crossings' ? undefined : worstOf(study);
  const why = ask.by === 'crossings' ? undefined : reasonOf(study, worst);
  const sensor = why === undefined && worst?.smooth === true ? new WorstSensor(study, worst) : undefined;
  const changeOf =
    sensor === undefined ? byCrossings(study, ask.turns ?? 1) : (knob: Knob) => sensor.of(knob);
  const today = study.at();
  // equilibria are exact to a billionth of the weight
  const rounding = 1e-7 * Math.max(1e-6, Math.abs(today.value ?? 0));
  const found: Influence[] = [];
  const untried: string[] = [];
  let idle = 0;
  knobs.forEach((knob, n) => {
    const turn = turnOf(knob);
    const slope = turn && changeOf(knob, turn.step);
    if (turn !== undefined && slope === undefined) untried.push(knob.name);
    if (slope === undefined || turn === undefined || Math.abs(slope * turn.step) <= rounding) idle++;
    else found.push({ knob, ...turn, change: slope * turn.step });
    ask.progress?.((n + 1) / knobs.length);
  });
  return {
    choice: study.choice,
    ...aboutOf(study),
    today,
    ...(worst === undefined ? {} : { worst: placeOf(worst) }),
    by: sensor === undefined ? 'crossings' : 'derivative',
    ...(why === undefined ? {} : { why }),
    list: found.sort((a, b) => Math.abs(b.change) - Math.abs(a.change)),
    idle: idle - untried.length,
    untried,
  };
}

function placeOf({ value, station, reading: { about } }: Worst) {
  return { value, station, ...(about === undefined ? {} : { of: about }) };
}

/** Why there is no derivative, or nothing when there is one. */
function reasonOf(study: Study, worst: Worst | undefined): string | undefined {
  if (worst?.smooth === true) return undefined;
  if (worst !== undefined) return 'the worst station is at a kink, a jump or the end of the crossing';
  const vehicle = study.vehicle();
  if (vehicle.ok && vehicle.mechanism.elements.some((e) => e.law.memory > 0))
    return 'dry friction remembers the way there';
  return 'the measure is not the smooth extreme of one figure here';
}

/** d(measure)/d(knob) by a central difference between whole crossings, with the worst station refined where it can be. */
function byCrossings(study: Study, turns: number): (knob: Knob, step: number) => number | undefined {
  const valueAt = (knob: Knob, by: number): number | undefined => {
    const settings = settingsFor([{ knob, to: knob.now + by }]);
    return worstOf(study, settings)?.value ?? study.at(settings).value ?? undefined;
  };
  const slope = (knob: Knob, by: number): number | undefined => {
    const [less, more] = [valueAt(knob, -by), valueAt(knob, by)];
    return less === undefined || more === undefined ? undefined : (more - less) / (2 * by);
  };
  // a whole turn may be more than the figure allows
  return (knob, step) => slope(knob, turns * step) ?? slope(knob, 0.05 * turns * step);
}

function aboutOf(study: Study): { title: string; unit: string } {
  const vehicle = study.vehicle();
  const row = vehicle.ok ? study.row(vehicle, study.cross(vehicle)) : undefined;
  return { title: row?.title ?? study.choice.text, unit: row?.unit ?? '1' };
}
