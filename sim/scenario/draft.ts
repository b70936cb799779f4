import type { z } from 'zod';
import { childOf, schemaAt } from '../../shared/schema/describe.ts';
import { type Scenario, scenarioDocument } from './schema.ts';

type Vehicle = Scenario['vehicle'];

/** A list of the document, entry by entry: undefined where the schema refused one, so that indices stay true. */
type Entries<T> = readonly (T | undefined)[];

/**
 * What could be read of a document. Checks of single entries look at this, so that one bad wheel does not hide a bad
 * spring. Lists are as in the document, SI, with defaults.
 */
export interface Draft {
  readonly members: Entries<Vehicle['members'][number]>;
  readonly elements: Entries<Vehicle['elements'][number]>;
  readonly wheels: Entries<Vehicle['wheels'][number]>;
  readonly masses: Entries<Vehicle['masses'][number]>;
  /** Only when all of it could be read: its parts name each other. */
  readonly driveline: Vehicle['driveline'];
  readonly strength: Entries<NonNullable<Vehicle['strength']>['parts'][number]>;
  readonly ground: Entries<Scenario['ground'][number]>;
  readonly criteria: Entries<Scenario['criteria'][number]>;
}

/** More entries than any list may have are not looked at one by one: the schema has refused the list. */
const most = 1000;

function entries<T>(raw: unknown, path: readonly string[]): Entries<T> {
  const list = path.reduce<unknown>(childOf, raw);
  const schema = schemaAt(scenarioDocument, raw, [...path, 0]);
  if (!Array.isArray(list) || schema === undefined) return [];
  return list.slice(0, most).map((entry) => {
    const read = (schema as z.ZodType<T>).safeParse(entry);
    return read.success ? read.data : undefined;
  });
}

/** What stands at a place of the document, if all of it could be read. */
function whole<T>(raw: unknown, path: readonly string[]): T | undefined {
  const read = schemaAt(scenarioDocument, raw, path)?.safeParse(path.reduce<unknown>(childOf, raw));
  return read?.success ? (read.data as T) : undefined;
}

/** The draft of a document that the schema refused as a whole. */
export function draftOf(raw: unknown): Draft {
  return {
    members: entries(raw, ['vehicle', 'members']),
    elements: entries(raw, ['vehicle', 'elements']),
    wheels: entries(raw, ['vehicle', 'wheels']),
    masses: entries(raw, ['vehicle', 'masses']),
    driveline: whole(raw, ['vehicle', 'driveline']),
    strength: entries(raw, ['vehicle', 'strength', 'parts']),
    ground: entries(raw, ['ground']),
    criteria: entries(raw, ['criteria']),
  };
}

/** The draft of a document that the schema took. */
export function wholeDraft({ vehicle, ground, criteria }: Scenario): Draft {
  const { members, elements, wheels, masses, driveline } = vehicle;
  const strength = vehicle.strength?.parts ?? [];
  return { members, elements, wheels, masses, driveline, strength, ground, criteria };
}
