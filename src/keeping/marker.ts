/** What the user had open last: read before anything is loaded, so that the first picture is the right one. */
export interface Marker {
  /** A kept document, or the name of a demo that was looked at. */
  readonly id?: string;
  readonly demo?: string;
  /** The window was closed in good order; otherwise it ended in the middle of something. */
  readonly left?: boolean;
}

const KEY = 'axlewright-open';

/** The marker; empty on a first visit, and where the browser denies it. */
export function readMarker(): Marker {
  try {
    const stored = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Marker | null;
    return stored ?? {};
  } catch {
    return {};
  }
}

/** Notes what is open. Where the browser denies it, the next visit opens with a demo; the documents are still there. */
export function writeMarker(marker: Marker): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(marker));
  } catch {
    // Full or denied: see above.
  }
}
