import { z } from 'zod';
import type { Path } from '../../shared/path.ts';
import { nameOf } from '../../shared/schema/quantity.ts';
import type { Dimension } from '../../shared/units.ts';
import type { Scenario } from '../scenario/schema.ts';

/** What every item of a stock list has, besides its figures. */
export const itemFields = {
  name: nameOf('What it is called; no two of one list alike.'),
  count: z.int().min(0).max(100_000).default(1).meta({ description: 'How many there are.', unit: '1' }),
  note: z.string().max(1000).optional().meta({ description: 'Where it lies, where it came from.' }),
};

/** An item of any list, read. */
export interface StockItem {
  readonly name: string;
  readonly count: number;
  readonly note?: string | undefined;
}

/** A place of the scenario that takes parts of one list: its entry, such as vehicle.elements[2]. */
export interface Place {
  readonly scenario: Scenario;
  readonly path: Path;
}

/** A value that takes a place in the scenario, SI; undefined takes the field out. */
export interface StockPut {
  readonly path: Path;
  readonly value: unknown;
  /** The field of the item that it is, by its keys, where the value stands there as it is: it may carry a spread. */
  readonly field?: readonly string[];
}

/** One way to fill a place from stock. */
export interface Choice {
  readonly label: string;
  /** Items that ONE at the place takes. */
  readonly items: readonly string[];
  readonly puts: readonly StockPut[];
  /** Figures that tell choices apart, SI, by the keys of the kind's `figures`. */
  readonly figures: Readonly<Record<string, number>>;
  /** What to know when it is taken. */
  readonly notes: readonly string[];
}

/** A figure by which the search may look for what is not in stock. */
export interface StockFigure {
  readonly key: string;
  /** 'rate', 'torque at standstill'. */
  readonly says: string;
  readonly dimension: Dimension;
  /** Where it stands in the entry, and fields that say the same and must go. */
  readonly at: readonly string[];
  readonly instead: readonly (readonly string[])[];
}

/** One list of a stock: its words, what it fills in, and what could be made. One file each; one line in registry.ts. */
export interface StockKind<S extends z.ZodObject = z.ZodObject> {
  /** Name of the list in the document: 'springs'. */
  readonly list: string;
  /** One and several of them, for messages. */
  readonly one: string;
  readonly title: string;
  /** Strict object of an item's own figures, besides `itemFields`. */
  readonly fields: S;
  /** Header words of a CSV besides the fields' own names, by what they mean: a field, or a path into one. */
  readonly words: Readonly<Record<string, readonly string[]>>;
  /** Figures by which items are compared; the first one orders them. */
  readonly figures: readonly StockFigure[];
  /** Why the place takes none of this list, or undefined. */
  refuses(place: Place): string | undefined;
  /** Ways to fill a place with these items, whatever their counts. */
  choices(items: readonly (StockItem & z.output<S>)[], place: Place): readonly Choice[];
  /** What could be made of the items, or bought, to come to these figures at the place; as sentences without a stop. */
  make?(
    wanted: Readonly<Record<string, number>>,
    items: readonly (StockItem & z.output<S>)[],
    place: Place,
  ): readonly string[];
  /** A worked item, as a user writes it. */
  readonly sample: z.input<S> & { readonly name: string; readonly count: number };
}

/** Declares a list; keeps its name, and the type of its items. */
export function defineStock<S extends z.ZodObject, const N extends string>(
  kind: StockKind<S> & { readonly list: N },
): StockKind<S> & { readonly list: N } {
  return kind;
}

/** The figures that are there, as puts into the entry at the place. */
export function putsOf(
  { path }: Place,
  figures: Readonly<Record<string, unknown>>,
  keep: readonly string[] = [],
): StockPut[] {
  return Object.entries(figures).flatMap(([key, value]) =>
    value === undefined && keep.includes(key) ? [] : [{ path: [...path, key], value, field: [key] }],
  );
}

/** Figures that are there. */
export const known = (figures: Readonly<Record<string, number | undefined>>): Record<string, number> =>
  Object.fromEntries(
    Object.entries(figures).filter((entry): entry is [string, number] => entry[1] !== undefined),
  );
