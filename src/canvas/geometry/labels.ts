/** A box on the picture, px, y down. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A label that wants a place: its size, and the places it would like, best first (top left corners). */
export interface Wish {
  readonly width: number;
  readonly height: number;
  readonly places: readonly { readonly x: number; readonly y: number }[];
}

/** Where a label went: index of the place it got, or −1 when all of them were taken. */
export interface Placed {
  readonly place: number;
  readonly rect: Rect;
}

/** True when two boxes overlap by more than touching. */
export function overlaps(a: Rect, b: Rect): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function within(inner: Rect, outer: Rect): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}

/**
 * Places labels one after another, each at the first of its places that is inside `frame` and clear of `taken` and of
 * the labels before it. `before` (the places of the last picture) is tried first, so that labels do not jump while
 * nothing is in their way.
 */
export function placeLabels(
  wishes: readonly Wish[],
  taken: readonly Rect[],
  frame: Rect,
  before: readonly number[] = [],
): Placed[] {
  const full: Rect[] = [...taken];
  return wishes.map((wish, i) => {
    const first = before[i] ?? -1;
    const order = wish.places
      .map((_, k) => k)
      .sort((a, b) => Number(b === first) - Number(a === first) || a - b);
    for (const k of order) {
      const rect = {
        ...(wish.places[k] as { x: number; y: number }),
        width: wish.width,
        height: wish.height,
      };
      if (!within(rect, frame) || full.some((other) => overlaps(other, rect))) continue;
      full.push(rect);
      return { place: k, rect };
    }
    return {
      place: -1,
      rect: { ...(wish.places[0] ?? { x: 0, y: 0 }), width: wish.width, height: wish.height },
    };
  });
}
