/** Why a document cannot be kept in the browser's database. */
export type Trouble =
  | { readonly kind: 'full' }
  /** There is no database: a private window, or storage that the user turned off. */
  | { readonly kind: 'refused' }
  /** What is there was written by a newer version of the app. */
  | { readonly kind: 'newer' }
  | { readonly kind: 'failed'; readonly why: string };

const kindOf: Readonly<Record<string, Exclude<Trouble['kind'], 'failed'>>> = {
  QuotaExceededError: 'full',
  VersionError: 'newer',
  SecurityError: 'refused',
  InvalidStateError: 'refused',
};

/** What an error of the database means. */
export function troubleOf(error: unknown): Trouble {
  const name = error instanceof Error ? error.name : '';
  const kind = kindOf[name];
  if (kind !== undefined) return { kind };
  if (error instanceof ReferenceError || error instanceof TypeError) return { kind: 'refused' };
  return {
    kind: 'failed',
    why: error instanceof Error && error.message !== '' ? error.message : 'no reason given',
  };
}

/** A trouble as the title and the sentence that the user reads. */
export function troubleWords(trouble: Trouble): { readonly title: string; readonly says: string } {
  switch (trouble.kind) {
    case 'full':
      return {
        title: 'Not kept: the browser’s storage is full',
        says: 'Save a file, or delete documents that you no longer need; then this one is kept again.',
      };
    case 'refused':
      return {
        title: 'Not kept: this browser stores nothing for this page',
        says: 'That is so in some private windows, and where site data is turned off. Save a file before you close the tab.',
      };
    case 'newer':
      return {
        title: 'Not kept: your documents belong to a newer version of Axlewright',
        says: 'They are untouched. Save a file of what is open here, then reload to get the newer version.',
      };
    case 'failed':
      return {
        title: 'Not kept: the browser’s database failed',
        says: `It says: ${trouble.why}. Save a file, then reload.`,
      };
  }
}
