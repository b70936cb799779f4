import type { Path } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json } from '../documents/json.ts';
import { fieldOf } from './references.ts';

/** What is left of a value: itself, nothing, or not even what holds it. */
type Left = { readonly value: Json } | 'nothing' | 'nor its holder';

/** What is left of a list whose last item went. */
function emptied(document: Json, path: Path): Left {
  const field = fieldOf([...path, 0]);
  if (field !== undefined) {
    if (field.empty === 'holder') return 'nor its holder';
    return field.empty === 'field' ? 'nothing' : { value: [] };
  }
  if (describeField(scenarioDocument, document, path)?.optional === true) return 'nothing';
  // A drive line without parts is none, and a steering of no line steers nothing; a vehicle stays, with an empty list.
  const holder = path.slice(0, -1);
  const mayGo =
    typeof holder.at(-1) === 'number' || describeField(scenarioDocument, document, holder)?.optional === true;
  return mayGo ? 'nor its holder' : { value: [] };
}

const below = (drops: readonly Path[], step: string | number): readonly Path[] =>
  drops.filter((drop) => drop[0] === step).map((drop) => drop.slice(1));

function stripped(document: Json, value: Json, drops: readonly Path[], path: Path): Left {
  if (drops.length === 0) return { value };
  if (drops.some((drop) => drop.length === 0)) return 'nothing';
  if (isList(value)) {
    const left = value.flatMap((item, i): Json[] => {
      const inner = stripped(document, item, below(drops, i), [...path, i]);
      return typeof inner === 'string' ? [] : [inner.value];
    });
    return left.length === 0 && value.length > 0 ? emptied(document, path) : { value: left };
  }
  if (!isObject(value)) return { value };
  const entries: [string, Json][] = [];
  for (const [key, inner] of Object.entries(value)) {
    const left = stripped(document, inner, below(drops, key), [...path, key]);
    if (left === 'nor its holder') return 'nothing';
    if (left !== 'nothing') entries.push([key, left.value]);
  }
  return { value: Object.fromEntries(entries) };
}

/**
 * The document without the values at these paths. What cannot stand without them goes too: an emptied branch of a
 * sharing tree, a criterion about nothing. Everything else is shared.
 */
export function without(document: Json, drops: readonly Path[]): Json {
  const left = stripped(document, document, drops, []);
  return typeof left === 'string' ? document : left.value;
}
