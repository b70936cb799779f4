import corrie from '../../scenarios/corrie-6x6.json';
import { appraise, compile, drive, layGround, loadScenario } from '../../sim/index.ts';
import type { Solved } from '../../src/solved.ts';

/** A change to a scenario document as a user would make it. */
export type Edit = (document: typeof corrie) => void;

/** The shipped six-wheeler, solved here: the same run that the app shows first. `edit` changes the document before. */
export function solveCorrie(edit: Edit = () => undefined): Solved {
  const document = structuredClone(corrie);
  edit(document);
  const checked = loadScenario(document);
  if (!checked.ok) throw new Error(checked.problems.map((p) => `${p.path} ${p.message}`).join('; '));
  const recording = drive(checked.value);
  return {
    mechanism: compile(checked.value),
    ground: layGround(checked.value),
    recording,
    report: appraise(checked.value, recording),
  };
}
