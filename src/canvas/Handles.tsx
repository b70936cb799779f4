import { type PointerEvent, useCallback, useEffect, useId, useLayoutEffect, useRef, useState } from 'react';
import { palettes } from '../charts/palette.ts';
import type { Look, Solved } from '../solved.ts';
import { ROOM, vehicleBox } from './camera.ts';
import type { Handle, HandleProblem, HandleWishes } from './handles/handle.ts';
import { type Hold, spotOf } from './handles/hold.ts';
import { Knob } from './handles/Knob.tsx';
import { Note } from './handles/Note.tsx';
import { placeShown, stepOf } from './handles/steps.ts';
import { useHold } from './handles/useHold.ts';
import type { Seen, Sight } from './sight.ts';
import './handles/handles.css';

export interface HandlesProps extends HandleWishes {
  readonly solved: Solved | null;
  /** The same as that of the SceneView below. */
  readonly sight: Sight;
  readonly handles: readonly Handle[];
  /** Why the handle that is held cannot be where it is wanted. */
  readonly problem?: HandleProblem | null;
  readonly look: Look;
  /** The handle that has been taken up, by pointer or by focus: the one to make a map for. */
  readonly onPick?: (id: string) => void;
}

/** Ring of a handle as a share of the smallest wheel's radius, px limits beside it. */
const RING = { share: 0.3, least: 3.5, most: 7.5 } as const;

/** Distance of the words from the ring's middle, px. */
const NOTE = { side: 24, above: 14 } as const;

/** The run's vehicle as wide as it is drawn, with a wheel's room around: limits to speak of where there are none. */
function reachOf(solved: Solved) {
  const { xMin, xMax, zMin, zMax } = vehicleBox(solved.mechanism);
  const room = solved.mechanism.size;
  return { x: { from: xMin - room, to: xMax + room }, z: { from: zMin - room, to: zMax + room } };
}

/** Puts every handle where its point is on the picture, and the words beside the one they are about. */
function lay(
  parts: ReadonlyMap<string, Element>,
  handles: readonly Handle[],
  hold: Hold | undefined,
  named: string | undefined,
  seen: Seen | undefined,
  radius: number,
): void {
  for (const handle of handles) {
    const knob = parts.get(handle.id) as SVGGElement | undefined;
    const mine = hold?.handle.id === handle.id ? hold : undefined;
    const spot = spotOf(seen, handle.body, mine?.at ?? handle.at);
    if (knob === undefined) continue;
    knob.style.display = spot === undefined ? 'none' : '';
    if (spot === undefined || seen === undefined) continue;
    knob.setAttribute('transform', `translate(${spot.x.toFixed(2)} ${spot.y.toFixed(2)})`);
    const ring = Math.min(RING.most, Math.max(RING.least, RING.share * radius * seen.view.scale));
    knob.style.setProperty('--ring', `${ring.toFixed(2)}px`);
    const was = mine === undefined ? undefined : spotOf(seen, handle.body, mine.handle.at);
    const link = parts.get('link');
    if (mine !== undefined && was !== undefined && link !== undefined) {
      link.setAttribute('d', `M${was.x} ${was.y}L${spot.x} ${spot.y}`);
      parts.get('was')?.setAttribute('transform', `translate(${was.x} ${was.y})`);
    }
    const note = parts.get('note') as HTMLElement | undefined;
    if (named === handle.id && note !== undefined) layNote(note, spot, seen.view.size);
  }
}

function layNote(
  note: HTMLElement,
  spot: { x: number; y: number },
  { width, height }: { width: number; height: number },
): void {
  const { offsetWidth: w, offsetHeight: h } = note;
  const right = spot.x + NOTE.side + w <= width - 8;
  const x = right ? spot.x + NOTE.side : Math.max(8, spot.x - NOTE.side - w);
  const y = Math.min(height - ROOM.foot - h - 4, Math.max(ROOM.top, spot.y - NOTE.above - h));
  note.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
}

/**
 * Handles on what may be moved, over the picture. Goes after a SceneView, into the same positioned element. Dragged by
 * mouse or touch; a Tab stop for each axis, moved by arrow keys. Their places follow the picture without React.
 */
export function Handles(props: HandlesProps) {
  const { solved, sight, handles, problem = null, look, onPick } = props;
  const radius = solved?.mechanism.size ?? 1;
  const shown = placeShown(radius);
  const holding = useHold({ ...props, problem, step: stepOf(radius), shown });
  const { hold } = holding;
  const [pointed, setPointed] = useState<string>();
  const [focused, setFocused] = useState<string>();
  const [parts] = useState(() => new Map<string, Element>());
  const help = useId();
  const named = hold?.handle.id ?? focused ?? pointed;
  const place = useRef<(seen: Seen | undefined) => void>(() => undefined);
  place.current = (seen) => lay(parts, handles, hold, named, seen, radius);

  useLayoutEffect(() => place.current(sight.now));
  useEffect(() => sight.watch((seen) => place.current(seen)), [sight]);

  const keep = useCallback(
    (key: string) => (element: Element | null) => {
      if (element === null) parts.delete(key);
      else parts.set(key, element);
    },
    [parts],
  );
  const grab = (event: PointerEvent<SVGElement>) => {
    const id = holding.down(event);
    if (id === undefined) return;
    event.preventDefault();
    (parts.get(`${id} x`) as SVGGElement | undefined)?.focus({ preventScroll: true });
  };
  const hover = (event: PointerEvent<SVGElement>) => {
    const group = (event.target as Element).closest('.handle');
    setPointed(handles.find(({ id }) => parts.get(id) === group)?.id);
  };

  if (solved === null || handles.length === 0) return null;
  const palette = palettes[look.theme];
  const about = handles.find(({ id }) => id === named);
  const stuck = problem !== null && hold?.handle.id === problem.id ? problem : undefined;
  return (
    <div className="handles" style={{ '--handle': palette.accent, '--paper-here': palette.paper } as object}>
      <svg
        className="handles-layer"
        ref={keep('layer')}
        onPointerOver={hover}
        onPointerLeave={() => setPointed(undefined)}
        onPointerDown={grab}
        onPointerMove={holding.move}
        onPointerUp={holding.up}
        onPointerCancel={holding.lost}
        onLostPointerCapture={holding.lost}
        onWheel={passOn}
      >
        <title>Points that can be moved</title>
        {hold !== undefined && (
          <>
            <path className="handle-link" ref={keep('link')} />
            <g ref={keep('was')}>
              <circle className="handle-was" r={3} />
            </g>
          </>
        )}
        {handles.map((handle) => (
          <Knob
            key={handle.id}
            handle={handle}
            at={hold?.handle.id === handle.id ? hold.at : handle.at}
            shown={shown}
            reach={reachOf(solved)}
            held={hold?.handle.id === handle.id}
            stuck={stuck?.id === handle.id}
            holding={holding}
            help={help}
            keep={keep}
            onFocus={() => {
              setFocused(handle.id);
              if (focused !== handle.id) onPick?.(handle.id);
            }}
            onBlur={() => {
              setFocused(undefined);
              holding.blur();
            }}
          />
        ))}
      </svg>
      {about !== undefined && (
        <Note
          keep={keep('note')}
          handle={about}
          hold={hold?.handle.id === about.id ? hold : undefined}
          shown={shown}
          problem={stuck?.says}
          palette={palette}
        />
      )}
      <p id={help} className="handles-help">
        Arrow keys move it, with Shift ten times as far, with Alt a tenth as far. Enter keeps it there, Escape
        puts it back.
      </p>
    </div>
  );
}

/** A turn of the wheel over a handle is meant for the picture below. */
function passOn(event: React.WheelEvent<SVGElement>): void {
  const scene = event.currentTarget.closest('.handles')?.parentElement?.querySelector('.scene-view');
  scene?.dispatchEvent(new WheelEvent('wheel', event.nativeEvent));
}
