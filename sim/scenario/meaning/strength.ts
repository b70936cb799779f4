import { usualSafety } from '../../strength/fields.ts';
import { fitEntry } from '../../strength/fit.ts';
import type { EntryCheck } from './check.ts';

/** Safety factors do not decide whether an entry fits. */
const anySafety = { safety: usualSafety.parts, springSafety: usualSafety.springs };

/** Strength entries name a part that there is, once, and have the figures that its element leaves open. */
export const strengthFits: EntryCheck = (draft, tree, problems) => {
  // a member or element that could not be read has been told: its name is not called unknown besides
  const all = [...draft.members, ...draft.elements].every((entry) => entry !== undefined);
  const seen = new Map<string, number>();
  draft.strength.forEach((entry, i) => {
    if (entry === undefined) return;
    const path = `vehicle.strength.parts[${i}]`;
    const fitted = fitEntry(entry, i, anySafety, { ...tree, elements: draft.elements });
    if ('misfit' in fitted) {
      const { field, message, hint, unknown } = fitted.misfit;
      if (all || unknown !== true) problems.error(`${path}.${field}`, message, hint);
      return;
    }
    const { kind, of } = fitted.part;
    const first = seen.get(`${kind} ${of}`);
    if (first === undefined) seen.set(`${kind} ${of}`, i);
    else
      problems.error(
        path,
        `'${of}' has a ${kind} in vehicle.strength.parts[${first}] already`,
        'keep one of them',
      );
  });
};
