import type { Path } from '../../shared/path.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Place, StockPut } from './kind.ts';

type Vehicle = Scenario['vehicle'];
export type Element = Vehicle['elements'][number];
export type Part = NonNullable<Vehicle['driveline']>['parts'][number];
export type Wheel = Vehicle['wheels'][number];

const isAt = (path: Path, ...keys: readonly string[]): boolean =>
  path.length === keys.length + 1 && keys.every((key, i) => path[i] === key);

/** The force element at a place, if one is there. */
export const elementAt = ({ scenario, path }: Place): Element | undefined =>
  isAt(path, 'vehicle', 'elements') ? scenario.vehicle.elements[path[2] as number] : undefined;

/** The part of the drive line at a place, if one is there. */
export const partAt = ({ scenario, path }: Place): Part | undefined =>
  isAt(path, 'vehicle', 'driveline', 'parts')
    ? scenario.vehicle.driveline?.parts[path[3] as number]
    : undefined;

/** The axle line at a place, if one is there. */
export const wheelAt = ({ scenario, path }: Place): Wheel | undefined =>
  isAt(path, 'vehicle', 'wheels') ? scenario.vehicle.wheels[path[2] as number] : undefined;

/** How many equal parts the place holds. */
export const countAt = (place: Place): number =>
  (elementAt(place) ?? partAt(place) ?? wheelAt(place))?.count ?? 1;

/** 'the damper "front dampers"'; for messages. */
export function entryWords(place: Place): string {
  const entry = elementAt(place) ?? partAt(place);
  if (entry !== undefined) return `the ${entry.kind} '${entry.name}'`;
  const wheel = wheelAt(place);
  return wheel === undefined ? 'no part' : `the wheels '${wheel.name}'`;
}

/** Puts into the strength figures of an element, where the document has such: these in, those of the part before it out. */
export function strengthPuts(
  { scenario }: Place,
  kind: 'coil' | 'bar',
  element: string,
  {
    figures,
    gone,
  }: { readonly figures: Readonly<Record<string, unknown>>; readonly gone: readonly string[] },
): StockPut[] {
  const parts = scenario.vehicle.strength?.parts ?? [];
  const index = parts.findIndex(
    (part) => part.kind === kind && 'element' in part && part.element === element,
  );
  if (index < 0) return [];
  const at = (key: string): Path => ['vehicle', 'strength', 'parts', index, key];
  return [
    ...gone.map((key) => ({ path: at(key), value: undefined })),
    ...Object.entries(figures).flatMap(([key, value]) =>
      value === undefined ? [] : [{ path: at(key), value, field: [key] }],
    ),
  ];
}

/** Mass of a part, put only where the part has a mass of its own: elsewhere a mass item of the vehicle holds it. */
export const massPuts = (place: Place, part: Part, mass: number | undefined): StockPut[] =>
  mass === undefined || part.mass === 0
    ? []
    : [{ path: [...place.path, 'mass'], value: mass, field: ['mass'] }];
