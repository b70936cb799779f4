import type { Head, Plan } from './record.ts';

/** A write that a page left behind: it may not have reached the database before the page was gone. */
export interface Left {
  readonly head: Head;
  readonly plan: Pick<Plan, 'body' | 'rows' | 'from'> & { readonly kept: { readonly first: number } };
}

const PREFIX = 'axlewright-left-';

/**
 * Notes a write in the one place that takes it at once: what a page asks of the database while it is being left is
 * broken off with it, now and then. Where there is no room, the database alone has to do.
 */
export function noteLeft(head: Head, { body, rows, from, kept }: Plan): void {
  const left: Left = {
    head,
    plan: { ...(body === undefined ? {} : { body }), rows, from, kept: { first: kept.first } },
  };
  try {
    localStorage.setItem(PREFIX + head.id, JSON.stringify(left));
  } catch {
    // Full or denied: see above.
  }
}

/** All writes that pages left behind. They are forgotten with this: each is made once or not at all. */
export function takeLeft(): readonly Left[] {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
    return keys.flatMap((key) => {
      const text = localStorage.getItem(key);
      localStorage.removeItem(key);
      return text === null ? [] : [JSON.parse(text) as Left];
    });
  } catch {
    return [];
  }
}
