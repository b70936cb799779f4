import { formatVersion } from '../../shared/schema/scenario.ts';

/** A document as it was read: nothing is known about it but that it is an object. */
export type RawDocument = Readonly<Record<string, unknown>>;

/** Brings a document from version `from` to the next one. It may not change what it is given. */
export interface Migration {
  readonly from: number;
  /** What changed between the two versions, in one sentence. */
  readonly says: string;
  up(document: RawDocument): RawDocument;
}

/** Version 0 was that of the first drafts, before the format was published. */
const fromDraft: Migration = {
  from: 0,
  says: 'The title of a scenario was called `name`.',
  up({ name, ...rest }) {
    return name === undefined || rest.title !== undefined ? rest : { ...rest, title: name };
  },
};

/** All migrations, oldest first. A new version of the format adds one line here. */
export const migrations: readonly Migration[] = [fromDraft];

/**
 * A document of an older version in today's form, step by step; the document itself if it is of today's version or
 * has none that could be migrated. The document that is given is never changed.
 */
export function migrate(document: RawDocument, steps: readonly Migration[] = migrations): RawDocument {
  let current = document;
  for (const step of steps) {
    if (current.version !== step.from || step.from >= formatVersion) continue;
    current = { ...step.up(current), version: step.from + 1 };
  }
  return current;
}
