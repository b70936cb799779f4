import { type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { useBench, useDocument, useNotice } from '../app/workbench.ts';
import { boardOf, pointOn } from '../build/board.ts';
import type { Sight } from '../canvas/sight.ts';
import { commit } from '../store/document.ts';
import { setPicture, type Underlay, underlayOf } from './underlay.ts';
import './underlay.css';

/** Lays the picture's element where the drawing has it. */
function lay(image: HTMLImageElement, u: Underlay, sight: Sight): void {
  const seen = sight.now;
  if (seen === undefined || image.naturalWidth === 0) return;
  const board = boardOf(seen);
  const scale = (u.width * board.scale) / image.naturalWidth;
  const [x, y] = [board.left + u.at.x * board.scale, board.top - u.at.z * board.scale];
  image.style.width = `${image.naturalWidth}px`;
  image.style.transform = `translate(${x}px, ${y}px) rotate(${-u.angle}rad) scale(${scale}) translate(-50%, -50%)`;
  image.style.opacity = String(u.opacity);
}

/** Moves the picture by hand: one step of the history per drag. */
function useDrag(sight: Sight, u: Underlay | undefined, field: RefObject<HTMLElement | null>) {
  const { documents } = useBench();
  const drag = useRef<{ readonly from: Vec2; readonly at: Vec2; readonly name: string } | undefined>(
    undefined,
  );
  const count = useRef(0);
  const place = ({ clientX, clientY }: PointerEvent): Vec2 | undefined => {
    const box = field.current?.getBoundingClientRect();
    const seen = sight.now;
    if (box === undefined || seen === undefined) return undefined;
    return pointOn(boardOf(seen), { x: clientX - box.left, y: clientY - box.top });
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>): void {
      const from = place(event);
      if (event.button !== 0 || from === undefined || u === undefined) return;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
      count.current += 1;
      drag.current = { from, at: u.at, name: `picture ${count.current}` };
    },
    onPointerMove(event: PointerEvent<HTMLElement>): void {
      const to = place(event);
      const { current } = drag;
      if (current === undefined || to === undefined) return;
      const at = { x: current.at.x + to.x - current.from.x, z: current.at.z + to.z - current.from.z };
      commit(documents, setPicture(documents.getState().raw, 'move the picture', { at }), current.name);
    },
    onPointerUp(): void {
      drag.current = undefined;
    },
  };
}

/** The picture that is drawn over: it lies with the drawing, whatever is looked at. */
export function UnderlayPicture({
  sight,
  field,
}: {
  readonly sight: Sight;
  readonly field: RefObject<HTMLElement | null>;
}) {
  const raw = useDocument((state) => state.raw);
  const open = useNotice((state) => state.picture);
  const u = underlayOf(raw);
  const image = useRef<HTMLImageElement>(null);
  const latest = useRef(u);
  latest.current = u;
  const drag = useDrag(sight, u, field);
  useEffect(() => {
    const again = (): void => {
      if (image.current !== null && latest.current !== undefined) lay(image.current, latest.current, sight);
    };
    return sight.watch(again);
  }, [sight]);
  useEffect(() => {
    if (image.current !== null && u !== undefined) lay(image.current, u, sight);
  });
  if (u === undefined) return null;
  const loose = open && !u.locked;
  return (
    <img
      ref={image}
      className="underlay"
      data-loose={loose}
      src={u.picture}
      alt="To draw over"
      draggable={false}
      onLoad={({ currentTarget }) => lay(currentTarget, u, sight)}
      {...(loose ? { ...drag, onPointerCancel: drag.onPointerUp } : {})}
    />
  );
}
