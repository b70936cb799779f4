import { type RefObject, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, useSelection } from '../app/workbench.ts';
import type { Size } from '../canvas/camera.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Sight } from '../canvas/sight.ts';
import { palettes } from '../charts/palette.ts';
import type { Handle } from '../edits/edit.ts';
import type { Look } from '../solved.ts';
import { samePath, select } from '../store/selection.ts';
import { type Board, boardOf, boardRound, gridStep, pointOn, spotOn } from './board.ts';
import { Chooser } from './Chooser.tsx';
import { Guides } from './Guides.tsx';
import { HandleNote } from './HandleNote.tsx';
import { Knob } from './Knob.tsx';
import { Marks } from './Marks.tsx';
import { entryAt, pointShapes, shapesOf } from './shapes.ts';
import { TypedPlace } from './TypedPlace.tsx';
import { useBroken } from './useBroken.ts';
import { useCarrying } from './useCarrying.ts';
import { type Manner, useHandling } from './useHandling.ts';
import './overlay.css';

interface OverlayProps {
  readonly sight: Sight;
  readonly handles: readonly Handle[];
  readonly manner: Manner;
  readonly look: Look;
  /** The element that picture and overlay lie in: presses beside handles select. */
  readonly field: RefObject<HTMLElement | null>;
}

/** A press on the picture that moves less than this selects, px; how near a thing must be to it. */
const SLACK = 4;
const NEAR = 7;

/** Handles that are shown: all of what carries load, and those of drawn lines when their entry is selected or pointed at. */
function shownOf(
  handles: readonly Handle[],
  ...wanted: readonly (Handle['entry'] | undefined)[]
): readonly Handle[] {
  return handles.filter(
    ({ entry }) => !isLine(entry) || wanted.some((each) => each !== undefined && samePath(each, entry)),
  );
}

/** Outlines and the belly have many points, which would hide what matters. */
const isLine = (entry: Handle['entry']): boolean => entry[1] === 'bodywork';

/** Follows the picture: how the drawing lies on it, without React. */
function useBoard(sight: Sight, handles: readonly Handle[], field: RefObject<HTMLElement | null>) {
  const board = useRef<Board | undefined>(undefined);
  const [watchers] = useState(() => new Set<(board: Board) => void>());
  const latest = useRef(handles);
  latest.current = handles;
  useEffect(() => {
    const tell = (): void => {
      const size: Size = { width: field.current?.clientWidth ?? 0, height: field.current?.clientHeight ?? 0 };
      const seen = sight.now;
      if (size.width === 0) return;
      board.current =
        seen === undefined
          ? boardRound(
              latest.current.map(({ at }) => at),
              size,
            )
          : boardOf(seen);
      for (const each of watchers) each(board.current);
    };
    tell();
    return sight.watch(tell);
  }, [sight, field, watchers]);
  const watch = useCallback(
    (each: (now: Board) => void) => {
      watchers.add(each);
      if (board.current !== undefined) each(board.current);
      return () => {
        watchers.delete(each);
      };
    },
    [watchers],
  );
  return { board, watch };
}

/** Puts the grid, the marks and every handle where they are on the picture. */
function lay(
  layer: SVGSVGElement,
  handles: readonly Handle[],
  knobs: ReadonlyMap<string, Element>,
  board: Board,
  pitch: number | undefined,
): void {
  const { scale, left, top } = board;
  const metres = `matrix(${scale} 0 0 ${-scale} ${left} ${top})`;
  for (const each of layer.querySelectorAll('.in-metres')) each.setAttribute('transform', metres);
  const grid = layer.querySelector('.build-grid pattern');
  if (grid !== null && pitch !== undefined) {
    const step = Math.max(1, gridStep(pitch, scale) * scale);
    grid.setAttribute('width', String(step));
    grid.setAttribute('height', String(step));
    grid.setAttribute('x', String(left % step));
    grid.setAttribute('y', String(top % step));
    grid.firstElementChild?.setAttribute('d', `M${step} 0H0V${step}`);
  }
  for (const handle of handles) {
    const knob = knobs.get(pathText(handle.path));
    if (knob === undefined) continue;
    const { x, y } = spotOn(board, handle.at);
    knob.setAttribute('transform', `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
  }
}

/** Grid, marks and handles over the picture of the vehicle as it is drawn. */
export function Overlay({ sight, handles, manner, look, field }: OverlayProps) {
  const { selection, notices } = useBench();
  const raw = useDocument((state) => state.raw);
  const drawn = useDesk((state) => state.drawn);
  const entry = useSelection((state) => state.entry);
  const point = useSelection((state) => state.point);
  const under = useSelection((state) => state.under);
  const [pointed, setPointed] = useState<string>();
  const [focused, setFocused] = useState<string>();
  const [typed, setTyped] = useState<string>();
  const [stack, setStack] = useState<{ readonly handles: readonly Handle[]; readonly at: Spot }>();
  // Which of several points is meant is being asked: the keyboard stays there.
  const asking = useRef(false);
  const layer = useRef<SVGSVGElement>(null);
  const [knobs] = useState(() => new Map<string, SVGGElement>());
  const { board, watch } = useBoard(sight, handles, field);
  const handling = useHandling({
    board,
    handles,
    manner,
    onStack: (pressed, at) => {
      asking.current = true;
      setStack({ handles: pressed, at });
    },
    onType: (handle) => setTyped(pathText(handle.path)),
  });
  const { hand } = handling;
  const shown = useMemo(() => shownOf(handles, entry, under), [handles, entry, under]);
  const broken = useBroken(hand?.handle.entry ?? entry);

  const place = useRef<(now: Board) => void>(() => undefined);
  place.current = (now) => {
    if (layer.current !== null) lay(layer.current, shown, knobs, now, manner.pitch);
  };
  useLayoutEffect(() => {
    if (board.current !== undefined) place.current(board.current);
  });
  useEffect(() => watch((now) => place.current(now)), [watch]);

  const shapes = useMemo(() => shapesOf(raw, drawn, handles), [raw, drawn, handles]);
  const entryUnder = (spot: Spot): Handle['entry'] | undefined => {
    if (board.current === undefined) return undefined;
    return entryAt(shapes, pointOn(board.current, spot), NEAR / board.current.scale);
  };
  useCarrying({ field, board, pitch: manner.pitch, find: entryUnder });
  usePicking(field, entryUnder);

  const keep = useCallback(
    (key: string) => (element: SVGGElement | null) => {
      if (element === null) knobs.delete(key);
      else knobs.set(key, element);
    },
    [knobs],
  );
  const focus = (path: Handle['path']): void => {
    // The handle may be new with this selection.
    requestAnimationFrame(() => {
      if (!asking.current) knobs.get(pathText(path))?.focus({ preventScroll: true });
    });
  };
  const find = (id: string | undefined): Handle | undefined =>
    id === undefined ? undefined : handles.find(({ path }) => pathText(path) === id);
  const stop = stopOf(shown, entry, point);
  const about = hand?.handle ?? find(focused) ?? find(pointed);
  const now = about === undefined ? undefined : find(pathText(about.path));
  const typedHandle = find(typed);
  const palette = palettes[look.theme];

  return (
    <div
      className="overlay"
      data-carries={entry !== undefined && samePath(entry, under)}
      style={
        {
          '--handle': palette.accent,
          '--wrong': palette.lowInk,
          '--paper-here': palette.paper,
          '--line': palette.ink,
        } as object
      }
    >
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing has no fieldsets. */}
      <svg
        className="overlay-layer"
        ref={layer}
        aria-label="Points that can be moved"
        role="group"
        onPointerDown={(event) => {
          const taken = handling.down(event);
          if (taken === undefined) return;
          event.preventDefault();
          asking.current = false;
          setStack(undefined);
          focus(taken.path);
        }}
        onPointerMove={handling.move}
        onPointerUp={handling.up}
        onPointerCancel={handling.lost}
        onLostPointerCapture={handling.lost}
        onPointerOver={(event) =>
          setPointed((event.target as Element).closest<SVGGElement>('.knob')?.dataset.id)
        }
        onPointerLeave={() => setPointed(undefined)}
        onWheel={(event) => passOn(event, field.current)}
        onKeyDown={(event) => {
          if (event.key === 'Escape' && handling.busy()) {
            handling.cancel();
            event.preventDefault();
            event.stopPropagation();
          }
        }}
      >
        {manner.pitch === undefined ? null : (
          <g className="build-grid">
            <defs>
              <pattern id="build-grid" patternUnits="userSpaceOnUse">
                <path />
              </pattern>
            </defs>
            <rect width="100%" height="100%" fill="url(#build-grid)" />
          </g>
        )}
        <g className="in-metres">
          {broken === undefined ? null : (
            <Marks shapes={pointShapes(handles.filter((each) => !isLine(each.entry)))} look="broken" />
          )}
          <Marks
            shapes={shapes.filter((each) => under !== undefined && samePath(each.entry, under))}
            look="under"
          />
          <Marks
            shapes={shapes.filter((each) => entry !== undefined && samePath(each.entry, entry))}
            look="selected"
          />
          {hand?.caught === undefined ? null : <Guides caught={hand.caught} />}
          {hand === undefined || hand.handle.kind === 'angle' || now === undefined ? null : (
            <path className="hand-way" d={`M${hand.from.x} ${hand.from.z}L${now.at.x} ${now.at.z}`} />
          )}
        </g>
        {shown.map((handle) => {
          const id = pathText(handle.path);
          return (
            <Knob
              key={id}
              id={id}
              label={handle.label}
              kind={handle.kind}
              mine={entry !== undefined && samePath(handle.entry, entry)}
              held={hand !== undefined && pathText(hand.handle.path) === id}
              stuck={broken !== undefined && entry !== undefined && samePath(handle.entry, entry)}
              stop={id === stop}
              keep={keep}
              onKey={(event) => handling.key(event, find(id) ?? handle)}
              onFocus={() => {
                setFocused(id);
                select(selection, handle.entry, handle.path);
              }}
              onBlur={() => {
                setFocused(undefined);
                handling.blur();
              }}
            />
          );
        })}
      </svg>
      {about === undefined || now === undefined || typedHandle !== undefined || stack !== undefined ? null : (
        <HandleNote
          handle={now}
          from={hand?.from}
          caught={hand?.caught}
          why={broken}
          board={board}
          watch={watch}
          onSay={(said) => notices.setState({ said })}
        />
      )}
      {typedHandle === undefined ? null : (
        <TypedPlace
          handle={typedHandle}
          alone={manner.alone}
          board={board}
          watch={watch}
          onClose={() => {
            setTyped(undefined);
            focus(typedHandle.path);
          }}
        />
      )}
      {stack === undefined ? null : (
        <Chooser
          handles={stack.handles}
          at={stack.at}
          onChoose={(handle) => {
            asking.current = false;
            setStack(undefined);
            if (handle === undefined) return;
            select(selection, handle.entry, handle.path);
            focus(handle.path);
          }}
        />
      )}
    </div>
  );
}

/** The one handle that Tab comes to: the one taken up last, else the first of the selected entry, else the first. */
function stopOf(
  shown: readonly Handle[],
  entry: Handle['entry'] | undefined,
  point: Handle['path'] | undefined,
): string | undefined {
  const last = point === undefined ? undefined : shown.find(({ path }) => samePath(path, point));
  const first = entry === undefined ? undefined : shown.find((each) => samePath(each.entry, entry));
  const found = last ?? first ?? shown[0];
  return found === undefined ? undefined : pathText(found.path);
}

/** A turn of the wheel over a handle is meant for the picture below. */
function passOn(event: React.WheelEvent<SVGElement>, field: HTMLElement | null): void {
  field?.querySelector('.scene-view')?.dispatchEvent(new WheelEvent('wheel', event.nativeEvent));
}

/** Selects by a press on the picture, and marks what lies under the pointer. */
function usePicking(
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
