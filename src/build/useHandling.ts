import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef, useState } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { pathText } from '../../shared/path.ts';
import { useBench } from '../app/workbench.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Json } from '../documents/json.ts';
import type { Edit, Handle } from '../edits/edit.ts';
import { angleToward } from '../edits/handles.ts';
import { movePoint, turnAngle } from '../edits/move.ts';
import { type Snapped, snap } from '../edits/snap.ts';
import { giveUp } from '../store/document.ts';
import { liesIn, samePath, select } from '../store/selection.ts';
import { type Board, spotOn } from './board.ts';
import { useBuild } from './build.ts';

/** Half the size of a target, px: 28 px by mouse, 44 px by touch. */
export const REACH = { fine: 14, coarse: 22 } as const;

/** A press that moves less than this is none; handles closer than this lie on each other; a snap takes hold within it, px. */
const SLACK = 3;
const STACKED = 5;
const SNAP = 5;

/** Steps of angles, rad: by key and by drag, and the finer one. */
const DEGREE = Math.PI / 180;
const FINER = 0.1;

/** How points are moved. */
export interface Manner {
  /** Pitch that points snap to, m; undefined for none. */
  readonly pitch: number | undefined;
  /** Step of the arrow keys, m. */
  readonly step: number;
  /** Nothing goes along with a point. */
  readonly alone: boolean;
  /** What hangs at the other end of a rod makes way, so that the rod keeps its length. */
  readonly holdRods: boolean;
}

/** What is held, and what a snap has caught on. */
export interface Hand {
  readonly handle: Handle;
  /** Where it lay when it was taken up. */
  readonly from: Vec2;
  readonly caught: Snapped | undefined;
}

interface Grip {
  readonly pointer: number;
  readonly handle: Handle;
  readonly spot: Spot;
  readonly board: Board;
  readonly start: Json;
  readonly gesture: string;
  /** Handles that lie where it was pressed. */
  readonly stack: readonly Handle[];
  moving: boolean;
}

/** A burst of arrow keys on one handle. */
interface Burst {
  readonly id: string;
  readonly gesture: string;
  readonly from: Vec2;
}

interface Parts {
  readonly board: RefObject<Board | undefined>;
  readonly handles: readonly Handle[];
  readonly manner: Manner;
  /** Several handles lie on each other where one was pressed. */
  readonly onStack: (stack: readonly Handle[], at: Spot) => void;
  /** Typed values are wanted at a handle. */
  readonly onType: (handle: Handle) => void;
}

const spotIn = (event: PointerEvent<SVGElement>): Spot => {
  const box = (event.currentTarget.ownerSVGElement ?? event.currentTarget).getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
};

/** Handles within reach of a spot, nearest first; those of the selected entry come before others as near. */
function reached(
  handles: readonly Handle[],
  board: Board,
  to: Spot,
  reach: number,
  selected: Handle['entry'] | undefined,
) {
  return handles
    .map((handle) => {
      const { x, y } = spotOn(board, handle.at);
      const favour = selected !== undefined && liesIn(handle.path, selected) ? STACKED : 0;
      return { handle, far: Math.hypot(x - to.x, y - to.y), favour };
    })
    .filter(({ far }) => far <= reach)
    .sort((a, b) => a.far - a.favour - (b.far - b.favour));
}

const WAYS: Readonly<Record<string, Vec2>> = {
  ArrowRight: { x: 1, z: 0 },
  ArrowLeft: { x: -1, z: 0 },
  ArrowUp: { x: 0, z: 1 },
  ArrowDown: { x: 0, z: -1 },
};

/** Turns gestures on handles into edits: drags with snapping, arrow keys, Enter, Escape. */
export function useHandling(parts: Parts) {
  const { documents, selection } = useBench();
  const { apply, tell } = useBuild();
  const [hand, setHand] = useState<Hand>();
  const latest = useRef(parts);
  latest.current = parts;
  const grip = useRef<Grip | undefined>(undefined);
  const burst = useRef<Burst | undefined>(undefined);
  const wanted = useRef<{ spot: Spot; alone: boolean; free: boolean } | undefined>(undefined);
  const frame = useRef(0);
  const counted = useRef(0);
  const last = useRef<Edit | undefined>(undefined);
  useEffect(() => () => cancelAnimationFrame(frame.current), []);

  const nextGesture = (handle: Handle): string => {
    counted.current += 1;
    return `${pathText(handle.path)} by hand ${counted.current}`;
  };

  /** The newest place of the pointer, once a frame however often it moves. */
  const follow = (): void => {
    frame.current = 0;
    const held = grip.current;
    const to = wanted.current;
    if (held === undefined || to === undefined) return;
    wanted.current = undefined;
    const { manner, handles } = latest.current;
    const alone = manner.alone || to.alone;
    const { edit, caught } = dragged(held, to.spot, { ...manner, alone }, to.free ? [] : handles);
    apply(edit, held.gesture);
    last.current = edit;
    setHand({ handle: held.handle, from: held.handle.at, caught });
  };

  const letGo = (): void => {
    cancelAnimationFrame(frame.current);
    frame.current = 0;
    grip.current = undefined;
    wanted.current = undefined;
    last.current = undefined;
    setHand(undefined);
  };
  const cancel = (): void => {
    const held = grip.current;
    letGo();
    if (held?.moving === true) giveUp(documents, held.gesture);
  };
  const endBurst = (): void => {
    burst.current = undefined;
    setHand(undefined);
  };

  return {
    hand,
    /** Takes the handle at the pointer; returns it. */
    down(event: PointerEvent<SVGElement>): Handle | undefined {
      const { board, handles } = latest.current;
      if (event.button > 0 || grip.current !== undefined || board.current === undefined) return undefined;
      const spot = spotIn(event);
      const reach = event.pointerType === 'touch' ? REACH.coarse : REACH.fine;
      const near = reached(handles, board.current, spot, reach + 1, selection.getState().entry);
      const first = near[0];
      if (first === undefined) return undefined;
      const { handle } = first;
      endBurst();
      event.currentTarget.setPointerCapture(event.pointerId);
      grip.current = {
        pointer: event.pointerId,
        handle,
        spot,
        board: board.current,
        start: documents.getState().raw,
        gesture: nextGesture(handle),
        stack: near.filter(({ far }) => Math.abs(far - first.far) <= STACKED).map((each) => each.handle),
        moving: false,
      };
      select(selection, handle.entry, handle.path);
      return handle;
    },
    move(event: PointerEvent<SVGElement>): void {
      const held = grip.current;
      if (held?.pointer !== event.pointerId) return;
      const spot = spotIn(event);
      if (!held.moving && Math.hypot(spot.x - held.spot.x, spot.y - held.spot.y) < SLACK) return;
      held.moving = true;
      wanted.current = { spot, alone: event.altKey, free: event.ctrlKey || event.metaKey };
      if (frame.current === 0) frame.current = requestAnimationFrame(follow);
    },
    up(event: PointerEvent<SVGElement>): void {
      const held = grip.current;
      if (held?.pointer !== event.pointerId) return;
      if (wanted.current !== undefined) follow();
      const pressed = !held.moving;
      const made = last.current;
      letGo();
      if (made !== undefined) tell(made);
      if (pressed && held.stack.length > 1) latest.current.onStack(held.stack, held.spot);
    },
    lost(event: PointerEvent<SVGElement>): void {
      if (grip.current?.pointer === event.pointerId) cancel();
    },
    /** A drag or a burst of keys is under way. */
    busy: (): boolean => grip.current?.moving === true || burst.current !== undefined,
    cancel(): void {
      const keys = burst.current;
      cancel();
      endBurst();
      if (keys !== undefined) giveUp(documents, keys.gesture);
    },
    key(event: KeyboardEvent<Element>, handle: Handle): void {
      if (event.ctrlKey || event.metaKey) return;
      if (event.key === 'Enter') {
        event.preventDefault();
        event.stopPropagation();
        endBurst();
        latest.current.onType(handle);
        return;
      }
      const way = WAYS[event.key];
      if (way === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      if (grip.current !== undefined) return;
      const id = pathText(handle.path);
      if (burst.current?.id !== id) burst.current = { id, gesture: nextGesture(handle), from: handle.at };
      const { manner } = latest.current;
      const edit = nudged(documents.getState().raw, handle, way, event.shiftKey ? FINER : 1, {
        ...manner,
        alone: manner.alone || event.altKey,
      });
      apply(edit, burst.current.gesture);
      setHand({ handle, from: burst.current.from, caught: undefined });
    },
    blur: endBurst,
  };
}

/** The edit that a drag to a spot makes of the document in which it began, and what it has snapped to. */
function dragged(
  { handle, start, board, spot }: Grip,
  to: Spot,
  manner: Manner,
  handles: readonly Handle[],
): { readonly edit: Edit; readonly caught: Snapped | undefined } {
  const pulled = {
    x: handle.at.x + (to.x - spot.x) / board.scale,
    z: handle.at.z - (to.y - spot.y) / board.scale,
  };
  if (handle.kind === 'angle') {
    const step = manner.pitch === undefined ? FINER * DEGREE : DEGREE / 2;
    const angle = Math.round(angleToward(handle, pulled) / step) * step;
    return { edit: turnAngle(start, handle.path, angle), caught: undefined };
  }
  const points = handles
    .filter(
      (each) => each.kind === 'point' && !samePath(each.path, handle.path) && !lies(each.at, handle, handles),
    )
    .map(({ at }) => at);
  const caught = snap(pulled, {
    ...(manner.pitch === undefined ? {} : { pitch: manner.pitch }),
    points,
    reach: SNAP / board.scale,
  });
  return { edit: movePoint(start, handle.path, caught.at, manner), caught };
}

/** Whether a place moves with a handle: what lies there now is the handle's own. */
function lies(at: Vec2, handle: Handle, handles: readonly Handle[]): boolean {
  const now = handles.find((each) => samePath(each.path, handle.path))?.at ?? handle.at;
  return Math.abs(at.x - now.x) < 1e-9 && Math.abs(at.z - now.z) < 1e-9;
}

/** The edit of one press of an arrow key. Angles grow with right and up. */
function nudged(document: Json, handle: Handle, way: Vec2, share: number, manner: Manner): Edit {
  if (handle.kind === 'angle') {
    const by = (way.x + way.z) * share * DEGREE;
    return turnAngle(document, handle.path, (handle.value ?? 0) + by);
  }
  const step = manner.step * share;
  return movePoint(
    document,
    handle.path,
    { x: handle.at.x + way.x * step, z: handle.at.z + way.z * step },
    manner,
  );
}
