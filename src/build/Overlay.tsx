import { type RefObject, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, useSelection } from '../app/workbench.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Sight } from '../canvas/sight.ts';
import { palettes } from '../charts/palette.ts';
import type { Handle } from '../edits/edit.ts';
import type { Look } from '../solved.ts';
import { samePath, select } from '../store/selection.ts';
import { type Board, pointOn } from './board.ts';
import { Chooser } from './Chooser.tsx';
import { Guides } from './Guides.tsx';
import { HandleNote } from './HandleNote.tsx';
import { Knob } from './Knob.tsx';
import { lay } from './lay.ts';
import { Marks } from './Marks.tsx';
import { entryAt, pointShapes, shapesOf } from './shapes.ts';
import { isLine, shownOf, stopOf } from './shown.ts';
import { TypedPlace } from './TypedPlace.tsx';
import { useBoard } from './useBoard.ts';
import { useBroken } from './useBroken.ts';
import { useCarrying } from './useCarrying.ts';
import { type Manner, useHandling } from './useHandling.ts';
import { usePicking } from './usePicking.ts';
import './overlay.css';

interface OverlayProps {
  readonly sight: Sight;
  readonly handles: readonly Handle[];
  readonly manner: Manner;
  readonly look: Look;
  /** The element that picture and overlay lie in: presses beside handles select. */
  readonly field: RefObject<HTMLElement | null>;
}

/** How near a thing must be to a press on the picture to be meant, px. */
const NEAR = 7;

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
  // What is not shown is neither taken hold of nor snapped to.
  const shown = useMemo(() => shownOf(handles, entry, under), [handles, entry, under]);
  const handling = useHandling({
    board,
    handles: shown,
    manner,
    onStack: (pressed, at) => {
      asking.current = true;
      setStack({ handles: pressed, at });
    },
    onType: (handle) => setTyped(pathText(handle.path)),
  });
  const { hand } = handling;
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
        {manner.pitch === undefined ? null : <Grid />}
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
          manner={manner}
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

/** A turn of the wheel over a handle is meant for the picture below. */
function passOn(event: React.WheelEvent<SVGElement>, field: HTMLElement | null): void {
  field?.querySelector('.scene-view')?.dispatchEvent(new WheelEvent('wheel', event.nativeEvent));
}

/** Lines at the pitch that points snap to; `lay` gives them their step. */
function Grid() {
  return (
    <g className="build-grid">
      <defs>
        <pattern id="build-grid" patternUnits="userSpaceOnUse">
          <path />
        </pattern>
      </defs>
      <rect width="100%" height="100%" fill="url(#build-grid)" />
    </g>
  );
}
