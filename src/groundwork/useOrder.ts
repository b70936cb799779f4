import { type KeyboardEvent, type PointerEvent, type RefObject, useRef, useState } from 'react';

/** A drag under way: the row that is dragged, and where it would go. */
export interface Dragged {
  readonly from: number;
  readonly to: number;
}

/** The row of a list at a height of the window, px: its middle decides. */
function rowAt(list: HTMLElement, y: number): number {
  const rows = [...list.children];
  const below = rows.findIndex((row) => {
    const { top, height } = row.getBoundingClientRect();
    return y < top + height / 2;
  });
  return below < 0 ? rows.length : below;
}

/**
 * Lets the rows of a list be put in another order by their grips: dragged by mouse or finger, or moved with the arrow keys.
 * @param onMove an index and the index that it shall have
 */
export function useOrder(
  list: RefObject<HTMLElement | null>,
  count: number,
  onMove: (from: number, to: number) => void,
) {
  const [dragged, setDragged] = useState<Dragged>();
  const pointer = useRef<number | undefined>(undefined);
  const stop = (): void => {
    pointer.current = undefined;
    setDragged(undefined);
  };
  const focusGrip = (index: number): void => {
    requestAnimationFrame(() => list.current?.children[index]?.querySelector<HTMLElement>('.grip')?.focus());
  };
  const gripOf = (index: number) => ({
    onPointerDown(event: PointerEvent<HTMLElement>): void {
      if (event.button > 0) return;
      pointer.current = event.pointerId;
      event.currentTarget.setPointerCapture(event.pointerId);
      setDragged({ from: index, to: index });
    },
    onPointerMove(event: PointerEvent<HTMLElement>): void {
      if (pointer.current !== event.pointerId || list.current === null) return;
      const gap = rowAt(list.current, event.clientY);
      // A gap behind the row itself closes when the row leaves.
      setDragged({ from: index, to: Math.min(count - 1, gap > index ? gap - 1 : gap) });
    },
    onPointerUp(event: PointerEvent<HTMLElement>): void {
      if (pointer.current !== event.pointerId) return;
      const to = dragged?.to ?? index;
      stop();
      if (to !== index) onMove(index, to);
    },
    onPointerCancel: stop,
    onKeyDown(event: KeyboardEvent<HTMLElement>): void {
      if (event.key === 'Escape' && pointer.current !== undefined) stop();
      else if ((event.key === 'ArrowUp' || event.key === 'ArrowLeft') && index > 0) {
        onMove(index, index - 1);
        focusGrip(index - 1);
      } else if ((event.key === 'ArrowDown' || event.key === 'ArrowRight') && index < count - 1) {
        onMove(index, index + 1);
        focusGrip(index + 1);
      } else if (!event.key.startsWith('Arrow')) return;
      event.preventDefault();
      event.stopPropagation();
    },
  });
  /** Where the dragged row would be put: a line above or below this row. */
  const markOf = (index: number): 'above' | 'below' | 'dragged' | undefined => {
    if (dragged === undefined || dragged.from === dragged.to) return undefined;
    if (index === dragged.from) return 'dragged';
    if (index !== dragged.to) return undefined;
    return dragged.to > dragged.from ? 'below' : 'above';
  };
  return { gripOf, markOf };
}
