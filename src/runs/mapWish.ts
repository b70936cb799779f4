import type { Scenario } from '../../sim/scenario/schema.ts';
import { chooseMeasure, usualChoice } from '../../sim/studies/choice.ts';
import { Field } from '../../sim/studies/map.ts';
import { pivotNamed } from '../../sim/studies/pivots.ts';
import { type Plane, planesOf } from '../../sim/studies/planes.ts';
import { MAP_SIZE, type MapWish } from './mapping.ts';

/** The wish for the map of a pivot, an arm or a bar with a measure (the usual one where the scenario does not have it). */
export function mapWish(
  scenario: Scenario,
  { name, kind }: Pick<Plane, 'name' | 'kind'>,
  measure: string,
): Omit<MapWish, 'document'> | undefined {
  const plane = planesOf(scenario).find((each) => each.name === name && each.kind === kind);
  const chosen = chooseMeasure(measure, scenario);
  const choice = chosen.ok ? chosen : chooseMeasure(usualChoice, scenario);
  const { on } = pivotNamed(scenario, name) ?? { on: 'chassis' };
  if (plane === undefined || !choice.ok) return undefined;
  const { columns, rows } = MAP_SIZE;
  const field = new Field({ x: { ...plane.x, steps: columns }, z: { ...plane.z, steps: rows } });
  return { plane, on, measure: choice.value.text, better: choice.value.better, field };
}
