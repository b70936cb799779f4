import type { Path } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { compileChecked } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { type Scenario, scenarioDocument } from '../../sim/scenario/schema.ts';
import { type Setting, withSettings } from '../../sim/studies/knob.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { written } from '../panels/fields/figure.ts';
import type { Change } from '../store/document.ts';

export { settingsFor } from '../../sim/studies/knob.ts';

/** Figures (SI) as edits of a document, in the units that it has. */
export function changesOf(document: Json, settings: readonly Setting[]): readonly Change[] {
  return settings.flatMap(({ path, value }) => {
    const about = describeField(scenarioDocument, document, path as Path);
    const now = valueAt(document, path);
    return about === undefined ? [] : [{ path, value: written(value, now, about) }];
  });
}

/** The vehicle of a scenario with figures put in place, SI; undefined where there is no such vehicle. */
export function compiledWith(scenario: Scenario, settings: readonly Setting[]): Mechanism | undefined {
  const compiled = compileChecked(withSettings(scenario, settings));
  return compiled.ok ? compiled.value : undefined;
}
