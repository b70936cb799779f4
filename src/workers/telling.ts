import type { Problem } from '../../shared/problem.ts';
import { column, type Recording } from '../../shared/recording.ts';
import type { BoundElement, Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Drawn, Told, ToldElement } from './told.ts';

/** Places at which a law is traced. */
const PLACES = 65;
/** Memory of a law at rest. */
const NO_HISTORY = new Float64Array(8);

/** An element with its law traced over the travel that it had in a run. */
function toldElement(element: BoundElement, travel: Float64Array): ToldElement {
  const { law, ...rest } = element;
  let [from, to] = [0, 0];
  for (const x of travel) [from, to] = [Math.min(from, x), Math.max(to, x)];
  const step = Math.max((to - from) / (PLACES - 1), 1e-9);
  const at = (i: number) => from + i * step;
  return {
    ...rest,
    traced: {
      from,
      step,
      efforts: Float64Array.from({ length: PLACES }, (_, i) => law.spring(at(i), NO_HISTORY)),
      stiffness: Float64Array.from({ length: PLACES }, (_, i) => law.stiffness(at(i), NO_HISTORY)),
      corners: law.corners,
    },
  };
}

/** The parts of a mechanism that pictures draw; nothing in it is a function, so that it can be handed over. */
function toldMechanism(mechanism: Mechanism, recording: Recording): Told['mechanism'] {
  const { elements, driveline: _d, strength: _s, winches: _w, steering: _t, ...rest } = mechanism;
  return {
    ...rest,
    elements: elements.map((element, e) => toldElement(element, column(recording, 'elementTravel', e))),
  };
}

/** What a worker has read of a document, for a window that has not loaded its own reader yet. */
export function telling(drawn: Drawn, recording: Recording, problems: readonly Problem[]): Told {
  return { ...drawn, mechanism: toldMechanism(drawn.mechanism, recording), problems };
}
