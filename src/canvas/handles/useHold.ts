import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import type { Shown } from '../../charts/figures.ts';
import type { Sight } from '../sight.ts';
import type { Handle, HandleProblem, HandleWishes } from './handle.ts';
import { dragTo, gripBy, type Hold, nearestHandle } from './hold.ts';
import { moveByKey, placeInWords, withinLimits } from './steps.ts';

/** Half the size of a target, px: 28 px by mouse, 44 px by touch. */
export const REACH = { fine: 14, coarse: 22 } as const;

interface HoldParts extends HandleWishes {
  readonly handles: readonly Handle[];
  readonly sight: Sight;
  readonly problem: HandleProblem | null;
  readonly step: number;
  readonly shown: Shown;
}

/** What is held, and what pointers and keys do to it. */
export interface Holding {
  readonly hold: Hold | undefined;
  readonly down: (event: PointerEvent<SVGElement>) => string | undefined;
  readonly move: (event: PointerEvent<SVGElement>) => void;
  readonly up: (event: PointerEvent<SVGElement>) => void;
  readonly lost: (event: PointerEvent<SVGElement>) => void;
  readonly key: (event: KeyboardEvent<SVGElement>, id: string) => void;
  readonly blur: () => void;
}

/** Place of a pointer on the picture, px. */
function spotIn(event: PointerEvent<SVGElement>): { x: number; y: number } {
  const box = (event.currentTarget.ownerSVGElement ?? event.currentTarget).getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

/** Holds one handle at a time, by pointer or by keys. */
export function useHold(parts: HoldParts): Holding {
  const [hold, setHold] = useState<Hold>();
  // Events come faster than renders: what is held now is kept beside the state.
  const now = useRef<Hold | undefined>(undefined);
  const latest = useRef(parts);
  latest.current = parts;
  const { problem, shown } = parts;

  useEffect(() => {
    if (problem !== null && now.current?.handle.id === problem.id)
      latest.current.onSay?.(`${now.current.handle.label} cannot be there: ${problem.says}`);
  }, [problem]);

  const put = (next: Hold | undefined) => {
    now.current = next;
    setHold(next);
  };
  const move = (next: Hold) => {
    const was = now.current;
    put(next);
    if (was === undefined || was.at.x !== next.at.x || was.at.z !== next.at.z)
      latest.current.onMove(next.handle.id, next.at);
  };
  const keep = () => {
    const held = now.current;
    put(undefined);
    if (held === undefined || held.grip?.moving === false) return;
    latest.current.onKeep(held.handle.id, held.at);
    if (latest.current.problem?.id !== held.handle.id)
      latest.current.onSay?.(`${held.handle.label} kept at ${placeInWords(held.at, shown)}`);
  };
  const cancel = () => {
    const held = now.current;
    put(undefined);
    if (held === undefined || held.grip?.moving === false) return;
    latest.current.onCancel(held.handle.id);
    latest.current.onSay?.(
      `${held.handle.label} is back where it was, ${placeInWords(held.handle.at, shown)}`,
    );
  };

  return {
    hold,
    down(event) {
      if (event.button > 0 || now.current?.grip !== undefined) return undefined;
      const reach = event.pointerType === 'touch' ? REACH.coarse : REACH.fine;
      const { handles, sight } = latest.current;
      const spot = spotIn(event);
      const handle = nearestHandle(handles, sight.now, spot, reach + 1);
      if (handle === undefined) return undefined;
      keep();
      const held = gripBy(handle, event.pointerId, spot, sight.now);
      if (held === undefined) return undefined;
      event.currentTarget.setPointerCapture(event.pointerId);
      put(held);
      return handle.id;
    },
    move(event) {
      const held = now.current;
      if (held?.grip?.pointer !== event.pointerId) return;
      const next = dragTo(held, spotIn(event), latest.current.step);
      if (next !== held) move(next);
    },
    up(event) {
      if (now.current?.grip?.pointer === event.pointerId) keep();
    },
    lost(event) {
      if (now.current?.grip?.pointer === event.pointerId) cancel();
    },
    key(event, id) {
      const held = now.current;
      if (held !== undefined && (event.key === 'Escape' || event.key === 'Enter')) {
        event.preventDefault();
        event.stopPropagation();
        if (event.key === 'Escape') cancel();
        else keep();
        return;
      }
      const by = moveByKey(event, latest.current.step);
      if (by === undefined || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      event.stopPropagation();
      if (held?.grip !== undefined) return;
      const handle = held?.handle ?? latest.current.handles.find((h) => h.id === id);
      if (handle === undefined) return;
      const from = held?.at ?? handle.at;
      move({ handle, at: withinLimits({ x: from.x + by.x, z: from.z + by.z }, handle.limits) });
    },
    blur() {
      if (now.current !== undefined && now.current.grip === undefined) keep();
    },
  };
}
