import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef, useState } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import { useBench } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import type { View } from '../canvas/camera.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Json } from '../documents/json.ts';
import type { Edit } from '../edits/edit.ts';
import { moveGroundPoint } from '../edits/ground.ts';
import { type Snapped, snap } from '../edits/snap.ts';
import { giveUp } from '../store/document.ts';
import { select } from '../store/selection.ts';
import { pulledSize, type SizeHandle, setSize } from './sizes.ts';

/** Something of the ground that can be taken hold of: a point, or a size of an obstacle. */
export interface Grip {
  readonly id: string;
  readonly path: Path;
  readonly entry: Path;
  readonly label: string;
  /** World, m. */
  readonly at: Vec2;
  /** Where it is shown, px. */
  readonly spot: Spot;
  readonly size?: SizeHandle;
}

/** What is held: where it lay, and what it has snapped to. */
export interface Grasp {
  readonly id: string;
  readonly from: Vec2;
  readonly was: number | undefined;
  readonly caught: Snapped | undefined;
  /** Where it was wanted, m: a point that stays between its neighbours is elsewhere. */
  readonly wanted: Vec2 | undefined;
}

/** Half the size of a target by mouse and by touch, px; a press that moves less is none; a snap takes hold within it. */
const REACH = { fine: 14, coarse: 22 } as const;
const SLACK = 3;
const SNAP = 5;
/** What Shift makes of a step. */
const FINER = 0.1;

interface Parts {
  readonly view: RefObject<View | undefined>;
  readonly grips: readonly Grip[];
  /** Pitch that points snap to, m, and step of the arrow keys, m. */
  readonly pitch: number | undefined;
  readonly step: number;
  readonly onType: (grip: Grip) => void;
}

interface Held {
  readonly pointer: number;
  readonly grip: Grip;
  readonly spot: Spot;
  readonly scale: number;
  readonly start: Json;
  readonly gesture: string;
  moving: boolean;
}

const WAYS: Readonly<Record<string, Vec2>> = {
  ArrowRight: { x: 1, z: 0 },
  ArrowLeft: { x: -1, z: 0 },
  ArrowUp: { x: 0, z: 1 },
  ArrowDown: { x: 0, z: -1 },
};

const onPitch = (value: number, pitch: number | undefined): number =>
  pitch === undefined ? value : Math.round(value / pitch) * pitch;

/** The edit that moves a grip by so much, m, and what it snapped to. */
function pulled(
  document: Json,
  grip: Grip,
  by: Vec2,
  { pitch, others, reach }: { pitch: number | undefined; others: readonly Vec2[]; reach: number },
): { readonly edit: Edit; readonly caught: Snapped | undefined } {
  if (grip.size !== undefined)
    return {
      edit: setSize(document, grip.path, onPitch(pulledSize(grip.size, by), pitch)),
      caught: undefined,
    };
  const to = { x: grip.at.x + by.x, z: grip.at.z + by.z };
  const caught = snap(to, { ...(pitch === undefined ? {} : { pitch }), points: others, reach });
  return { edit: moveGroundPoint(document, grip.path, caught.at), caught };
}

/** Turns gestures on the ground's points and sizes into edits: drags with snapping, arrow keys, Enter, Escape. */
export function useGrasp(parts: Parts) {
  const { documents, selection } = useBench();
  const { apply } = useBuild();
  const [grasp, setGrasp] = useState<Grasp>();
  const latest = useRef(parts);
  latest.current = parts;
  const held = useRef<Held | undefined>(undefined);
  const burst = useRef<{ readonly id: string; readonly gesture: string } | undefined>(undefined);
  const wanted = useRef<{ spot: Spot; free: boolean } | undefined>(undefined);
  const frame = useRef(0);
  const counted = useRef(0);
  useEffect(() => () => cancelAnimationFrame(frame.current), []);

  const nextGesture = (id: string): string => {
    counted.current += 1;
    return `${id} of the ground by hand ${counted.current}`;
  };
  const letGo = (): void => {
    cancelAnimationFrame(frame.current);
    frame.current = 0;
    held.current = undefined;
    wanted.current = undefined;
    burst.current = undefined;
    setGrasp(undefined);
  };
  /** The newest place of the pointer, once a frame however often it moves. */
  const follow = (): void => {
    frame.current = 0;
    const now = held.current;
    const to = wanted.current;
    if (now === undefined || to === undefined) return;
    wanted.current = undefined;
    const { grips, pitch } = latest.current;
    const by = { x: (to.spot.x - now.spot.x) / now.scale, z: (now.spot.y - to.spot.y) / now.scale };
    const others = to.free
      ? []
      : grips.filter(({ id, size }) => size === undefined && id !== now.grip.id).map(({ at }) => at);
    const { edit, caught } = pulled(now.start, now.grip, by, { pitch, others, reach: SNAP / now.scale });
    apply(edit, now.gesture);
    const { id, at, size } = now.grip;
    setGrasp({ id, from: at, was: size?.value, caught, wanted: caught?.at });
  };
  const cancel = (): void => {
    const gesture = held.current?.moving === true ? held.current.gesture : burst.current?.gesture;
    letGo();
    if (gesture !== undefined) giveUp(documents, gesture);
  };

  return {
    grasp,
    /** Takes the grip that is nearest to the pointer. */
    down(event: PointerEvent<SVGElement>): Grip | undefined {
      const { view, grips } = latest.current;
      if (event.button > 0 || held.current !== undefined || view.current === undefined) return undefined;
      const box = event.currentTarget.getBoundingClientRect();
      const spot = { x: event.clientX - box.left, y: event.clientY - box.top };
      const reach = (event.pointerType === 'touch' ? REACH.coarse : REACH.fine) + 1;
      const near = grips
        .map((grip) => ({ grip, far: Math.hypot(grip.spot.x - spot.x, grip.spot.y - spot.y) }))
        .filter(({ far }) => far <= reach)
        .sort((a, b) => a.far - b.far)[0];
      if (near === undefined) return undefined;
      const { grip } = near;
      letGo();
      event.currentTarget.setPointerCapture(event.pointerId);
      held.current = {
        pointer: event.pointerId,
        grip,
        spot,
        scale: view.current.scale,
        start: documents.getState().raw,
        gesture: nextGesture(grip.id),
        moving: false,
      };
      select(selection, grip.entry, grip.path);
      return grip;
    },
    move(event: PointerEvent<SVGElement>): void {
      const now = held.current;
      if (now?.pointer !== event.pointerId) return;
      const box = event.currentTarget.getBoundingClientRect();
      const spot = { x: event.clientX - box.left, y: event.clientY - box.top };
      if (!now.moving && Math.hypot(spot.x - now.spot.x, spot.y - now.spot.y) < SLACK) return;
      now.moving = true;
      wanted.current = { spot, free: event.ctrlKey || event.metaKey };
      if (frame.current === 0) frame.current = requestAnimationFrame(follow);
    },
    up(event: PointerEvent<SVGElement>): void {
      if (held.current?.pointer !== event.pointerId) return;
      if (wanted.current !== undefined) follow();
      letGo();
    },
    lost(event: PointerEvent<SVGElement>): void {
      if (held.current?.pointer === event.pointerId) cancel();
    },
    busy: (): boolean => held.current?.moving === true || burst.current !== undefined,
    cancel,
    key(event: KeyboardEvent<Element>, grip: Grip): void {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === 'Enter') {
        event.preventDefault();
        event.stopPropagation();
        letGo();
        latest.current.onType(grip);
        return;
      }
      const way = WAYS[event.key];
      if (way === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      if (held.current !== undefined) return;
      if (burst.current?.id !== grip.id) burst.current = { id: grip.id, gesture: nextGesture(grip.id) };
      const by = latest.current.step * (event.shiftKey ? FINER : 1);
      const document = documents.getState().raw;
      const to = { x: grip.at.x + way.x * by, z: grip.at.z + way.z * by };
      const edit =
        grip.size === undefined
          ? moveGroundPoint(document, grip.path, to)
          : setSize(document, grip.path, grip.size.value + (way.x + way.z) * by);
      apply(edit, burst.current.gesture);
      setGrasp((last) => ({
        id: grip.id,
        from: last?.id === grip.id ? last.from : grip.at,
        was: last?.id === grip.id ? last.was : grip.size?.value,
        caught: undefined,
        wanted: grip.size === undefined ? to : undefined,
      }));
    },
    blur(): void {
      if (held.current === undefined) letGo();
    },
  };
}
