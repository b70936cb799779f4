import { isList, isObject, type Json } from '../documents/json.ts';
import { entriesAt } from './lists.ts';
import type { Site } from './site.ts';

/**
 * Puts a new drive line part behind the last one, which turns it; a first one, or a further motor, turns the axle lines
 * that nothing turns yet.
 */
export function placePart({ document }: Site, entry: Json): Json {
  if (!isObject(entry)) return entry;
  const parts = entriesAt(document, ['vehicle', 'driveline', 'parts']);
  const last = parts.at(-1)?.value.name;
  const turned = parts.flatMap(({ value }) => (isList(value.wheels) ? value.wheels : []));
  const idle = entriesAt(document, ['vehicle', 'wheels']).flatMap(({ value }) =>
    typeof value.name === 'string' && !turned.includes(value.name) ? [value.name] : [],
  );
  const { kind, ...figures } = entry;
  const isSource = kind === 'motor' || typeof last !== 'string';
  return {
    kind: kind ?? '',
    ...(isSource ? {} : { from: last }),
    ...(idle.length === 0 ? {} : { wheels: idle }),
    ...figures,
  };
}
