import { type RefObject, useEffect, useRef } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { useBench } from '../app/workbench.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Json } from '../documents/json.ts';
import { moveEntry } from '../edits/move.ts';
import { giveUp } from '../store/document.ts';
import { samePath } from '../store/selection.ts';
import type { Board } from './board.ts';
import { useBuild } from './build.ts';

/** A press that moves less than this carries nothing, px. */
const SLACK = 4;

interface Load {
  readonly pointer: number;
  readonly entry: Path;
  readonly from: Spot;
  readonly scale: number;
  readonly start: Json;
  readonly gesture: string;
  moving: boolean;
}

interface CarryingParts {
  readonly field: RefObject<HTMLElement | null>;
  readonly board: RefObject<Board | undefined>;
  readonly pitch: number | undefined;
  /** The entry at a spot of the picture. */
  readonly find: (spot: Spot) => Path | undefined;
}

/** A way in whole steps of the pitch. */
const onPitch = ({ x, z }: Vec2, pitch: number | undefined): Vec2 =>
  pitch === undefined ? { x, z } : { x: Math.round(x / pitch) * pitch, z: Math.round(z / pitch) * pitch };

/**
 * Carries the selected entry, with all that hangs on it, where it is dragged by its shape: wheels, beams, outlines. A drag
 * beside it moves the picture.
 */
export function useCarrying(parts: CarryingParts): void {
  const { documents, selection } = useBench();
  const { apply } = useBuild();
  const latest = useRef(parts);
  latest.current = parts;
  const counted = useRef(0);
  const { field } = parts;
  useEffect(() => {
    const element = field.current;
    if (element === null) return undefined;
    const stop = new AbortController();
    const { signal } = stop;
    let load: Load | undefined;
    let wanted: Spot | undefined;
    let frame = 0;
    const spotOf = ({ clientX, clientY }: PointerEvent): Spot => {
      const box = element.getBoundingClientRect();
      return { x: clientX - box.left, y: clientY - box.top };
    };
    const follow = (): void => {
      frame = 0;
      if (load === undefined || wanted === undefined) return;
      const { from, scale, start, entry, gesture } = load;
      const way = { x: (wanted.x - from.x) / scale, z: (from.y - wanted.y) / scale };
      apply(moveEntry(start, entry, onPitch(way, latest.current.pitch)), gesture);
    };
    const drop = (): void => {
      cancelAnimationFrame(frame);
      frame = 0;
      load = undefined;
      wanted = undefined;
    };
    const cancel = (): void => {
      const was = load;
      drop();
      if (was?.moving === true) giveUp(documents, was.gesture);
    };
    const down = (event: PointerEvent): void => {
      const { entry } = selection.getState();
      const board = latest.current.board.current;
      const onPicture = event.target instanceof Element && event.target.closest('.scene-view') !== null;
      if (!onPicture || event.button !== 0 || load !== undefined || board === undefined) return;
      const spot = spotOf(event);
      if (entry === undefined || typeof entry.at(-1) !== 'number') return;
      if (!samePath(latest.current.find(spot), entry)) return;
      // The picture below would be moved along.
      event.stopPropagation();
      element.setPointerCapture(event.pointerId);
      counted.current += 1;
      const gesture = `${pathText(entry)} carried ${counted.current}`;
      const { raw } = documents.getState();
      load = {
        pointer: event.pointerId,
        entry,
        from: spot,
        scale: board.scale,
        start: raw,
        gesture,
        moving: false,
      };
    };
    const move = (event: PointerEvent): void => {
      if (load?.pointer !== event.pointerId) return;
      const spot = spotOf(event);
      if (!load.moving && Math.hypot(spot.x - load.from.x, spot.y - load.from.y) < SLACK) return;
      load.moving = true;
      wanted = spot;
      if (frame === 0) frame = requestAnimationFrame(follow);
    };
    const up = (event: PointerEvent): void => {
      if (load?.pointer !== event.pointerId) return;
      if (load.moving) follow();
      drop();
    };
    const key = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape' || load === undefined) return;
      event.preventDefault();
      cancel();
    };
    element.addEventListener('pointerdown', down, { signal, capture: true });
    element.addEventListener('pointermove', move, { signal });
    element.addEventListener('pointerup', up, { signal });
    element.addEventListener('pointercancel', cancel, { signal });
    element.addEventListener('lostpointercapture', () => load !== undefined && cancel(), { signal });
    window.addEventListener('keydown', key, { signal, capture: true });
    return () => {
      stop.abort();
      cancel();
    };
  }, [field, documents, selection, apply]);
}
