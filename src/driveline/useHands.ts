import { type PointerEvent, useEffect, useRef, useState } from 'react';
import { useBench } from '../app/workbench.ts';
import type { Building } from '../build/build.ts';
import { pitchOf } from '../build/pitch.ts';
import type { Sight } from '../canvas/sight.ts';
import type { Json } from '../documents/json.ts';
import { hangPart, movePart, turnLine } from '../edits/driveline.ts';
import { giveUp } from '../store/document.ts';
import type { Layout } from './layout.ts';
import { drawnAt, type Place } from './places.ts';
import type { Tree } from './tree.ts';

/** What something can be hung on: a part, or an axle line, by index. */
export type Target = { readonly part: number } | { readonly wheel: number };

/** What is in hand: a part, and what it would be hung on. */
export interface Hand {
  readonly part: number;
  readonly over: Target | undefined;
}

/** A press that moves less than this is none; how near a pointer must be to the middle of a plate, px. */
const SLACK = 4;
const NEAR = { x: 16, y: 14 } as const;

interface Grip {
  readonly part: number;
  readonly pointer: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly start: Json;
  /** Where everything stood when it was taken: while it is in hand the others stay there. */
  readonly layout: Layout;
  /** Where it is in hand, px. */
  at: { readonly x: number; readonly y: number };
  readonly gesture: string;
  moving: boolean;
  /** Its place has been moved in the document. */
  moved: boolean;
}

interface Parts {
  readonly building: Building | undefined;
  readonly tree: Tree;
  readonly places: readonly Place[];
  readonly layout: { readonly current: Layout | undefined };
  readonly svg: { readonly current: SVGSVGElement | null };
  readonly sight: Sight;
}

/** The part or axle line at a place of the diagram, px; not the one in hand. */
function targetAt(
  layout: Layout,
  at: { readonly x: number; readonly y: number },
  own: number,
): Target | undefined {
  const near = ({ x, y }: { readonly x: number; readonly y: number }) =>
    Math.abs(x - at.x) <= NEAR.x && Math.abs(y - at.y) <= NEAR.y;
  const part = layout.parts.findIndex((spot, i) => i !== own && near(spot));
  if (part >= 0) return { part };
  const wheel = layout.wheels.findIndex(near);
  return wheel >= 0 ? { wheel } : undefined;
}

/** Drags of parts in the diagram as edits: onto another part or an axle line to hang there, along the vehicle to move. */
export function useHands(parts: Parts) {
  const { documents, settings } = useBench();
  const [hand, setHand] = useState<Hand>();
  const latest = useRef(parts);
  latest.current = parts;
  const grip = useRef<Grip | undefined>(undefined);
  const counted = useRef(0);

  const letGo = (): void => {
    grip.current = undefined;
    setHand(undefined);
  };
  const takeBack = (held: Grip): void => {
    if (held.moved) giveUp(documents, held.gesture);
    held.moved = false;
  };
  const cancel = (): void => {
    const held = grip.current;
    letGo();
    if (held !== undefined) takeBack(held);
  };

  const spotOf = (event: { readonly clientX: number; readonly clientY: number }) => {
    const box = latest.current.svg.current?.getBoundingClientRect();
    return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
  };
  const shift = (held: Grip, px: number): void => {
    const { building, places, sight } = latest.current;
    const scale = sight.now?.view.scale;
    const place = places[held.part];
    if (building === undefined || scale === undefined || place === undefined) return;
    const pitch = pitchOf(settings.getState().pitch);
    const way = px / scale;
    const x = pitch === undefined ? way : Math.round(way / pitch) * pitch;
    if (x === 0 && !held.moved) return;
    held.moved = true;
    building.apply(movePart(held.start, held.part, { x, z: 0 }, drawnAt(place.anchors)), held.gesture);
  };

  const hang = (part: number, on: Target): void => {
    const { building, tree } = latest.current;
    const now = documents.getState().raw;
    const wheel = 'wheel' in on ? tree.wheels[on.wheel] : undefined;
    if ('part' in on) building?.apply(hangPart(now, part, on.part));
    else if (wheel !== undefined) building?.apply(turnLine(now, part, wheel.name));
  };

  const actions = {
    hand,
    hang,
    /** How everything stands while a part is in hand: that part under the pointer, the others where they were. */
    held(): Layout | undefined {
      const held = grip.current;
      if (held?.moving !== true) return undefined;
      const { layout, part, at, from } = held;
      const parts = layout.parts.map((spot, i) =>
        i === part ? { ...spot, x: spot.x + at.x - from.x, y: spot.y + at.y - from.y } : spot,
      );
      return { ...layout, parts };
    },
    /** Takes a part in hand, when there is somebody who builds. */
    down(event: PointerEvent<SVGGElement>, part: number): void {
      const { building, layout } = latest.current;
      if (event.button > 0 || grip.current !== undefined) return;
      if (building === undefined || layout.current === undefined) return;
      latest.current.svg.current?.setPointerCapture(event.pointerId);
      counted.current += 1;
      grip.current = {
        part,
        pointer: event.pointerId,
        from: spotOf(event),
        start: documents.getState().raw,
        layout: layout.current,
        at: spotOf(event),
        gesture: `part ${part} by hand ${counted.current}`,
        moving: false,
        moved: false,
      };
    },
    move(event: PointerEvent<SVGSVGElement>): void {
      const held = grip.current;
      if (held?.pointer !== event.pointerId) return;
      const at = spotOf(event);
      if (!held.moving && Math.hypot(at.x - held.from.x, at.y - held.from.y) < SLACK) return;
      held.moving = true;
      held.at = at;
      const over = event.altKey ? undefined : targetAt(held.layout, at, held.part);
      if (over === undefined) shift(held, at.x - held.from.x);
      else takeBack(held);
      setHand({ part: held.part, over });
    },
    up(event: PointerEvent<SVGSVGElement>): void {
      const held = grip.current;
      if (held?.pointer !== event.pointerId) return;
      const over = hand?.over;
      letGo();
      if (held.moving && over !== undefined) hang(held.part, over);
    },
    lost(event: PointerEvent<SVGSVGElement>): void {
      if (grip.current?.pointer === event.pointerId) cancel();
    },
    /** Moves a part by one pitch forward (1) or rearward (−1); further moves of it are the same step. */
    nudge(part: number, by: 1 | -1, step: number): void {
      const { building, places } = latest.current;
      const place = places[part];
      if (building === undefined || place === undefined) return;
      const edit = movePart(documents.getState().raw, part, { x: by * step, z: 0 }, drawnAt(place.anchors));
      building.apply(edit, `part ${part} by keys`);
    },
    cancel,
  };
  const giveIn = useRef(cancel);
  giveIn.current = cancel;
  useEffect(() => {
    const leave = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape' || grip.current?.moving !== true) return;
      event.preventDefault();
      event.stopPropagation();
      giveIn.current();
    };
    window.addEventListener('keydown', leave, true);
    return () => window.removeEventListener('keydown', leave, true);
  }, []);
  return actions;
}
