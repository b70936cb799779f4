import type { Path } from '../../shared/path.ts';
import { describeField, kindsOf, optionFor } from '../../shared/schema/describe.ts';
import type { Json } from '../documents/json.ts';
import { compounds } from '../edits/compounds/registry.ts';
import { driveLineLayouts } from '../edits/driveline.ts';
import { entryLists } from '../edits/lists.ts';
import { itemOf } from './fieldShape.ts';

/** Something that can be added: an entry of a list, of a kind where the list has kinds. */
export interface Addable {
  /** The list that it goes into; undefined for several entries that are added as one. */
  readonly list: Path | undefined;
  readonly kind: string | undefined;
  readonly title: string;
  readonly says: string;
}

/** What can be added to one list. */
export interface AddableGroup {
  readonly title: string;
  readonly items: readonly Addable[];
}

const titled = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Nouns whose heading is not made by an 's'. */
const HEADINGS: Readonly<Record<string, string>> = {
  ground: 'Ground',
  criterion: 'Asked for',
  mass: 'Masses',
};

/** What an entry is called, as the heading of its list. */
const headingOf = (noun: string): string => HEADINGS[noun] ?? titled(`${noun}s`);

/** Everything that can be added to a document, list by list, with titles and descriptions out of the schema. */
export function addables(document: Json): readonly AddableGroup[] {
  const whole = compounds.map(({ id, title, says }) => ({ list: undefined, kind: id, title, says }));
  const single = entryLists.flatMap(({ path: list, noun }): AddableGroup[] => {
    const item = itemOf(document, list);
    if (item === undefined) return [];
    const kinds = kindsOf(item);
    const title = headingOf(noun);
    if (kinds === undefined) {
      const says = describeField(item, undefined, [])?.description ?? '';
      return [{ title, items: [{ list, kind: undefined, title: titled(noun), says }] }];
    }
    const items = kinds.names.map((kind): Addable => {
      const option = optionFor(item, { [kinds.field]: kind });
      const about = option === undefined ? undefined : describeField(option, { [kinds.field]: kind }, []);
      return { list, kind, title: about?.title ?? kind, says: about?.description ?? '' };
    });
    return [{ title, items }];
  });
  const lines = driveLineLayouts.map(({ kind, title, says }) => ({ list: undefined, kind, title, says }));
  return [{ title: 'Whole axles', items: whole }, { title: 'Whole drive lines', items: lines }, ...single];
}
