import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { Sight } from '../canvas/sight.ts';
import { type Thing, thingsAt } from './things.ts';

/** How near the pointer has to be, px: a mouse, and a finger. */
const REACH = { fine: 7, coarse: 22 } as const;

/** A press that moves further than this, px, or lasts longer than this, ms, moves the picture and holds nothing. */
const PRESS = { far: 6, long: 600 } as const;

/** How long the pointer rests before a card comes up where it would be in the way of other work, ms. */
const REST = 450;

/** What takes the pointer for itself. */
const takes = 'button, select, input, label, .look-bar, .thing-card, .scene-legend';

interface Wishes {
  readonly field: RefObject<HTMLElement | null>;
  readonly sight: Sight;
  readonly things: readonly Thing[];
  /** A press holds the thing under it. */
  readonly hold: boolean;
}

interface Pointing {
  /** Things under the pointer, the first the one that is meant. */
  readonly over: readonly Thing[];
  readonly held: Thing | undefined;
  /** Things at the place where it was taken. */
  readonly around: readonly Thing[];
  take(thing: Thing): void;
  release(): void;
}

const nothing: readonly Thing[] = [];

/** Follows pointer, press and tap over the picture. */
export function usePointing({ field, sight, things, hold }: Wishes): Pointing {
  const [over, setOver] = useState(nothing);
  const [taken, setTaken] = useState<{ readonly held: Thing; readonly around: readonly Thing[] }>();
  const latest = useRef({ things, hold });
  latest.current = { things, hold };
  useEffect(() => {
    const element = field.current;
    if (element === null) return undefined;
    const stop = new AbortController();
    let wait = 0;
    let rest: ReturnType<typeof setTimeout> | undefined;
    let press: { x: number; y: number; time: number } | undefined;
    const under = (event: PointerEvent): readonly Thing[] => {
      const seen = sight.now;
      const picture = element.querySelector('.scene-view') ?? element;
      if (seen === undefined) return nothing;
      const box = picture.getBoundingClientRect();
      const { left, top, scale } = seen.view;
      const p = {
        x: (event.clientX - box.left - left) / scale,
        z: (top - (event.clientY - box.top)) / scale,
      };
      const reach = (event.pointerType === 'mouse' ? REACH.fine : REACH.coarse) / scale;
      return thingsAt(latest.current.things, seen.poses, p, reach);
    };
    const isTaken = ({ target }: PointerEvent) => target instanceof Element && target.closest(takes) !== null;
    const show = (found: readonly Thing[]): void =>
      setOver((was) =>
        was.length === found.length && was.every((each, i) => each === found[i]) ? was : found,
      );
    const move = (event: PointerEvent): void => {
      if (event.pointerType !== 'mouse') return;
      cancelAnimationFrame(wait);
      clearTimeout(rest);
      const free = event.buttons === 0 && !isTaken(event);
      if (latest.current.hold) wait = requestAnimationFrame(() => show(free ? under(event) : nothing));
      else {
        show(nothing);
        if (free) rest = setTimeout(() => show(under(event)), REST);
      }
    };
    const down = (event: PointerEvent): void => {
      clearTimeout(rest);
      if (!latest.current.hold) show(nothing);
      press =
        event.button === 0 && event.isPrimary && !isTaken(event)
          ? { x: event.clientX, y: event.clientY, time: event.timeStamp }
          : undefined;
    };
    const up = (event: PointerEvent): void => {
      const was = press;
      press = undefined;
      if (was === undefined || !latest.current.hold) return;
      const far = Math.hypot(event.clientX - was.x, event.clientY - was.y);
      if (far > PRESS.far || event.timeStamp - was.time > PRESS.long) return;
      const found = under(event);
      setTaken(found[0] === undefined ? undefined : { held: found[0], around: found });
    };
    const { signal } = stop;
    element.addEventListener('pointermove', move, { signal });
    element.addEventListener(
      'pointerleave',
      () => {
        clearTimeout(rest);
        show(nothing);
      },
      { signal },
    );
    element.addEventListener('pointerdown', down, { signal });
    element.addEventListener('pointerup', up, { signal });
    return () => {
      stop.abort();
      cancelAnimationFrame(wait);
      clearTimeout(rest);
    };
  }, [field, sight]);
  const release = useCallback(() => setTaken(undefined), []);
  const take = useCallback((held: Thing) => setTaken((was) => ({ held, around: was?.around ?? [] })), []);
  return { over, held: taken?.held, around: taken?.around ?? nothing, take, release };
}
