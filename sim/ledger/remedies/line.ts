import type { PartEntry } from '../../driveline/compile.ts';
import type { Driveline, DrivePart } from '../../driveline/driveline.ts';
import { wayUp } from '../../driveline/linear.ts';
import type { Scenario } from '../../scenario/schema.ts';
import type { Trouble } from './remedy.ts';

/** The drive line of a vehicle and the part of it that gives first. */
export interface InLine {
  readonly driveline: Driveline;
  readonly part: DrivePart;
  /** Driven axle lines with the parts from the one that turns them up to their source. */
  readonly ways: readonly (readonly DrivePart[])[];
}

/** The part of the drive line that gives first; undefined when something else does. */
export function inLine({ first, today }: Trouble): InLine | undefined {
  const { driveline } = today.mechanism;
  const index = /^vehicle\.driveline\.parts\[(\d+)\]/.exec(first.path ?? '')?.[1];
  const part = driveline?.parts.find((p) => index !== undefined && p.index === Number(index));
  if (driveline === undefined || part === undefined) return undefined;
  const ways = driveline.lastPart.flatMap((last) => (last < 0 ? [] : [wayUp(driveline, last)]));
  return { driveline, part, ways };
}

/** The scenario with some parts of its drive line changed. */
export function withParts(
  scenario: Scenario,
  change: (part: PartEntry, index: number) => PartEntry,
): Scenario {
  const { vehicle } = scenario;
  const { driveline } = vehicle;
  if (driveline === undefined) return scenario;
  return {
    ...scenario,
    vehicle: { ...vehicle, driveline: { ...driveline, parts: driveline.parts.map(change) } },
  };
}

/** A reduction with another ratio, told as a ratio instead of teeth; losses and sense stay. */
export function geared(entry: PartEntry, { law }: DrivePart, ratio: number): PartEntry {
  const {
    teeth: _teeth,
    sun: _sun,
    ring: _ring,
    friction: _friction,
    ...rest
  } = entry as Record<string, unknown>;
  return {
    ...rest,
    ratio,
    efficiency: law.driving,
    backEfficiency: law.backDriving,
    sense: law.sense > 0 ? 'same' : 'opposite',
  } as unknown as PartEntry;
}

/** Whether a part is a pair of gears or the like whose ratio can be chosen. */
export const isReduction = ({ kind }: DrivePart): boolean => kind === 'reduction' || kind === 'hub-reduction';
