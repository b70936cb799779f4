import { type RefObject, useEffect, useRef } from 'react';
import { useBench } from '../app/workbench.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Handle } from '../edits/edit.ts';
import { samePath, select } from '../store/selection.ts';

/** A press on the picture that moves less than this selects, px. */
const SLACK = 4;

/** Selects by a press on the picture, and marks what lies under the pointer. */
export function usePicking(
  field: RefObject<HTMLElement | null>,
  find: (spot: Spot) => Handle['entry'] | undefined,
): void {
  const { selection } = useBench();
  const latest = useRef(find);
  latest.current = find;
  useEffect(() => {
    const element = field.current;
    if (element === null) return undefined;
    const stop = new AbortController();
    const { signal } = stop;
    let pressed: Spot | undefined;
    const spotOf = ({ clientX, clientY }: PointerEvent): Spot => {
      const box = element.getBoundingClientRect();
      return { x: clientX - box.left, y: clientY - box.top };
    };
    const onPicture = ({ target }: Event): boolean =>
      target instanceof Element && target.closest('.scene-view') !== null;
    element.addEventListener(
      'pointerdown',
      (event) => {
        pressed = onPicture(event) && event.button === 0 ? spotOf(event) : undefined;
      },
      { signal },
    );
    element.addEventListener(
      'pointermove',
      (event) => {
        if (event.buttons !== 0) return;
        const under = onPicture(event) ? latest.current(spotOf(event)) : undefined;
        if (!samePath(under, selection.getState().under)) selection.setState({ under });
      },
      { signal },
    );
    element.addEventListener('pointerleave', () => selection.setState({ under: undefined }), { signal });
    element.addEventListener(
      'pointerup',
      (event) => {
        const spot = spotOf(event);
        if (pressed === undefined || Math.hypot(spot.x - pressed.x, spot.y - pressed.y) > SLACK) return;
        pressed = undefined;
        select(selection, latest.current(spot));
      },
      { signal },
    );
    return () => stop.abort();
  }, [field, selection]);
}
