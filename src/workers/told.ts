import type { Problem } from '../../shared/problem.ts';
import type { ElementLaw } from '../../sim/elements/element.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import type { BoundElement, Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';

/** What can be known of a document without driving it. */
export interface Drawn {
  /** As it was read. */
  readonly scenario: Scenario;
  readonly mechanism: Mechanism;
  readonly ground: Ground;
  /** Name of the vehicle. */
  readonly vehicle: string;
  /** Station at which it begins, m. */
  readonly start: number;
  /** What the run must hold to, a sentence each. */
  readonly asks: readonly string[];
}

/** A law as far as pictures need it: efforts and stiffness at even places along the coordinate. */
interface Traced {
  readonly from: number;
  readonly step: number;
  readonly efforts: Float64Array;
  readonly stiffness: Float64Array;
  readonly corners: readonly number[];
}

export interface ToldElement extends Omit<BoundElement, 'law'> {
  readonly traced: Traced;
}

/**
 * What a worker has read of a document: all that pictures draw from, and nothing that could not be handed from a worker
 * to a window. It serves until the window has loaded its own reader.
 */
export interface Told extends Omit<Drawn, 'mechanism'> {
  readonly mechanism: Omit<Mechanism, 'elements' | 'driveline' | 'strength' | 'winches' | 'steering'> & {
    readonly elements: readonly ToldElement[];
  };
  readonly problems: readonly Problem[];
}

/** Value at a place between two traced ones; the last ones beyond them. */
function between(values: Float64Array, { from, step }: Traced, x: number): number {
  const at = Math.min(Math.max((x - from) / step, 0), values.length - 1);
  const i = Math.min(Math.floor(at), values.length - 2);
  const share = at - i;
  return (1 - share) * (values[i] as number) + share * (values[i + 1] as number);
}

/** A law for pictures: effort and stiffness as they were traced, nothing that moves or is lost. */
function lawFrom(traced: Traced): ElementLaw {
  return {
    memory: 0,
    spring: (x) => between(traced.efforts, traced, x),
    stiffness: (x) => between(traced.stiffness, traced, x),
    energy: () => 0,
    loss: () => 0,
    damping: 0,
    corners: traced.corners,
  };
}

/** What was told, in the form in which pictures take it. */
export function drawnFrom({ mechanism, problems: _, ...rest }: Told): Drawn {
  const elements = mechanism.elements.map(({ traced, ...element }) => ({ ...element, law: lawFrom(traced) }));
  return { ...rest, mechanism: { ...mechanism, elements } };
}
