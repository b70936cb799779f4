/** What the pointer asks of the picture. Places in px from the element's corner. */
export interface PointerWishes {
  /** Dragged by so many px. */
  pan(dx: number, dy: number): void;
  /** Closer (factor above 1) or farther at a place. */
  zoom(factor: number, x: number): void;
}

/** Zoom per px of wheel turn, and per line where a mouse counts lines. */
const PER_PIXEL = 0.0016;
const PER_LINE = 18;

interface Held {
  x: number;
  y: number;
}

/** Distance and middle of two fingers. */
function pinchOf(held: ReadonlyMap<number, Held>): { span: number; x: number; y: number } | undefined {
  const [a, b] = [...held.values()];
  if (a === undefined || b === undefined) return undefined;
  return { span: Math.hypot(b.x - a.x, b.y - a.y), x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** Listens for drags, the wheel and pinches on an element; returns the way to stop. */
export function listen(element: HTMLElement, wishes: PointerWishes): () => void {
  const held = new Map<number, Held>();
  const stop = new AbortController();
  const place = (event: PointerEvent | WheelEvent): Held => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const down = (event: PointerEvent) => {
    if (event.pointerType === 'mouse' && event.button > 1) return;
    element.setPointerCapture(event.pointerId);
    held.set(event.pointerId, place(event));
    element.dataset.held = 'true';
  };
  const move = (event: PointerEvent) => {
    const was = held.get(event.pointerId);
    if (was === undefined) return;
    const now = place(event);
    const before = pinchOf(held);
    held.set(event.pointerId, now);
    const after = pinchOf(held);
    if (before === undefined || after === undefined) wishes.pan(now.x - was.x, now.y - was.y);
    else {
      wishes.pan(after.x - before.x, after.y - before.y);
      if (before.span > 1) wishes.zoom(after.span / before.span, after.x);
    }
  };
  const up = (event: PointerEvent) => {
    held.delete(event.pointerId);
    if (held.size === 0) delete element.dataset.held;
  };
  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    const { x } = place(event);
    if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      wishes.pan(-(event.deltaX || event.deltaY), 0);
      return;
    }
    const turned = event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_LINE ? PER_LINE : 1);
    wishes.zoom(Math.exp(-turned * PER_PIXEL), x);
  };
  const { signal } = stop;
  element.addEventListener('pointerdown', down, { signal });
  element.addEventListener('pointermove', move, { signal });
  element.addEventListener('pointerup', up, { signal });
  element.addEventListener('pointercancel', up, { signal });
  element.addEventListener('wheel', wheel, { signal, passive: false });
  return () => stop.abort();
}
