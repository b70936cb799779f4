import { type KeyboardEvent, type RefObject, useCallback, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, useNotice, useSelection } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import type { Camera } from '../build/camera.ts';
import type { View } from '../canvas/camera.ts';
import { travelShown } from '../charts/figures.ts';
import { palettes } from '../charts/palette.ts';
import { snap } from '../edits/snap.ts';
import type { Look } from '../solved.ts';
import { samePath, select } from '../store/selection.ts';
import { ChainSheet } from './ChainSheet.tsx';
import { DrawLayer } from './DrawLayer.tsx';
import { Flags } from './Flags.tsx';
import { GroundKnob } from './GroundKnob.tsx';
import { GroundNote, TypedPoint } from './GroundNote.tsx';
import { ImportSheet } from './ImportSheet.tsx';
import { focusKnob, makeRoom, showWhole, useFirstSight, usePresses } from './looking.ts';
import { handlesInSight, heightOf, inWords, type LaidPiece, pieceAt, problemsOf } from './pieces.ts';
import { addPointAt } from './places.ts';
import { sizeHandlesOf } from './sizes.ts';
import { type Grip, useGrasp } from './useGrasp.ts';
import { useGroundKeys } from './useGroundKeys.ts';
import { usePieces } from './usePieces.ts';
import { edgesOf, pathIn, spotIn, useView, worldAt } from './view.ts';
import './groundwork.css';

/** Points nearer to each other than this are not shown one by one; a size stands so far off its vertex, px. */
const APART = 13;
const OFF = 18;
/** How near above the ground's line a press selects the piece there, px. */
const NEAR = 40;
interface FieldProps {
  readonly camera: Camera;
  readonly field: RefObject<HTMLElement | null>;
  readonly pitch: number | undefined;
  readonly step: number;
  readonly look: Look;
}

/** Points and sizes that can be taken hold of in this view. */
function useGrips(
  pieces: readonly LaidPiece[],
  view: View | undefined,
): { readonly grips: readonly Grip[]; readonly hidden: number } {
  const raw = useDocument((state) => state.raw);
  const entry = useSelection((state) => state.entry);
  const point = useSelection((state) => state.point);
  const piece = pieces.find(({ path }) => samePath(path, entry));
  const sizes = useMemo(() => (piece === undefined ? [] : sizeHandlesOf(raw, piece)), [raw, piece]);
  return useMemo(() => {
    if (view === undefined) return { grips: [], hidden: 0 };
    const { handles, hidden } = handlesInSight(pieces, { ...edgesOf(view), gap: APART / view.scale }, point);
    const points = handles.map((each): Grip => ({ ...each, spot: spotIn(view, each.at) }));
    const pulled = sizes.map((size): Grip => {
      const { path, id, label, at, way } = size;
      const { x, y } = spotIn(view, at);
      const off = OFF / Math.hypot(way.x, way.z);
      const spot = { x: x + way.x * off, y: y - way.z * off };
      return { path, id, label, at, entry: size.entry, size, spot };
    });
    return { grips: [...points, ...pulled], hidden };
  }, [pieces, view, point, sizes]);
}

/** The ground as it is changed by hand, over the picture of it with the vehicle at its start. */
export function GroundField(props: FieldProps) {
  const { camera, field, pitch, step, look } = props;
  const { selection, documents } = useBench();
  const { apply } = useBuild();
  const pieces = usePieces();
  const view = useView(camera.sight);
  const tool = useNotice(({ ground }) => ground?.tool ?? 'points');
  const problems = useDesk((state) => state.problems);
  const size = useDesk((state) => state.drawn?.mechanism.size) ?? 0.05;
  const entry = useSelection((state) => state.entry);
  const point = useSelection((state) => state.point);
  const under = useSelection((state) => state.under);
  const [focused, setFocused] = useState<string>();
  const [pointed, setPointed] = useState<string>();
  const [typed, setTyped] = useState<string>();
  const { grips, hidden } = useGrips(pieces, view);
  const latestView = useRef(view);
  latestView.current = view;
  const grasping = useGrasp({ view: latestView, grips, pitch, step, onType: ({ id }) => setTyped(id) });
  useGroundKeys(props, pieces, tool);
  useFirstSight(camera, pieces);
  usePresses(
    field,
    (spot) => {
      if (view === undefined) return;
      const at = worldAt(view, spot);
      const piece = pieceAt(pieces, at.x);
      const high = heightOf(pieces, at.x);
      const near = at.z < high + NEAR / view.scale;
      select(selection, near ? piece?.path : undefined);
    },
    (spot) => {
      if (view === undefined) return;
      const at = worldAt(view, spot);
      const free = pitch === undefined ? at : snap(at, { pitch, points: [], reach: 0 }).at;
      const edit = addPointAt(documents.getState().raw, pieces, free);
      apply(edit);
      const path = edit.select;
      if (path === undefined) return;
      const whole = path.length > 2 ? path : [...path, 'points', 1];
      select(selection, whole.slice(0, 2), whole);
      focusKnob(field.current, pathText(whole));
    },
  );
  const latest = useRef({ grips, grasping });
  latest.current = { grips, grasping };
  const onKey = useCallback((id: string, event: KeyboardEvent) => {
    const grip = latest.current.grips.find((each) => each.id === id);
    if (grip !== undefined) latest.current.grasping.key(event, grip);
  }, []);
  const onFocus = useCallback(
    (id: string) => {
      setFocused(id);
      const grip = latest.current.grips.find((each) => each.id === id);
      if (grip !== undefined) select(selection, grip.entry, grip.path);
    },
    [selection],
  );
  const onBlur = useCallback(() => {
    setFocused(undefined);
    latest.current.grasping.blur();
  }, []);
  const find = (id: string | undefined): Grip | undefined => grips.find((each) => each.id === id);
  const palette = palettes[look.theme];
  const about = find(grasping.grasp?.id) ?? find(focused) ?? find(pointed);
  const typedGrip = find(typed);
  const marked = pieces.filter(({ path }) => samePath(path, entry));
  const hovered = pieces.filter(({ path }) => samePath(path, under) && !samePath(path, entry));
  const chosen = point === undefined ? undefined : pathText(point);
  const stop = (find(chosen) ?? grips.find((grip) => samePath(grip.entry, entry)) ?? grips[0])?.id;
  const why = (grip: Grip): string | undefined => {
    const own = problems.find(({ path }) => path === grip.id || path.startsWith(`${grip.id}.`));
    return own === undefined ? undefined : inWords(own);
  };
  const isBroken = (path: LaidPiece['path']): boolean =>
    problemsOf(problems, path).some(({ severity }) => severity === 'error');
  const sheet = tool === 'chain' || tool === 'import';
  const latestPieces = useRef(pieces);
  latestPieces.current = pieces;
  // Once the window has read what was laid.
  const onLaid = (): void => void setTimeout(() => showWhole(camera, latestPieces.current), 60);
  return (
    <>
      <div
        className="overlay groundwork"
        style={
          {
            '--handle': palette.accent,
            '--wrong': palette.lowInk,
            '--paper-here': palette.paper,
            '--line': palette.ink,
          } as object
        }
      >
        {view === undefined ? null : (
          // biome-ignore lint/a11y/useSemanticElements: a drawing has no fieldsets.
          <svg
            className="overlay-layer"
            aria-label="Points and sizes of the ground"
            role="group"
            onPointerDown={(event) => {
              const taken = grasping.down(event);
              if (taken === undefined) return;
              event.preventDefault();
              setTyped(undefined);
              focusKnob(field.current, taken.id);
            }}
            onPointerMove={grasping.move}
            onPointerUp={grasping.up}
            onPointerCancel={grasping.lost}
            onLostPointerCapture={grasping.lost}
            onPointerOver={(event) =>
              setPointed((event.target as Element).closest<SVGGElement>('.knob')?.dataset.id)
            }
            onPointerLeave={() => setPointed(undefined)}
            onWheel={({ nativeEvent }) =>
              field.current?.querySelector('.scene-view')?.dispatchEvent(new WheelEvent('wheel', nativeEvent))
            }
            onKeyDown={(event) => {
              if (event.key !== 'Escape' || !grasping.busy()) return;
              grasping.cancel();
              event.preventDefault();
              event.stopPropagation();
            }}
          >
            {hovered.map((piece) => (
              <path key="under" className="piece-line" data-look="under" d={pathIn(view, piece.points)} />
            ))}
            {marked.map((piece) => (
              <path key="mine" className="piece-line" data-look="selected" d={pathIn(view, piece.points)} />
            ))}
            {pieces
              .filter(({ path, points }) => points.length > 0 && isBroken(path))
              .map((piece) => (
                <path
                  key={pathText(piece.path)}
                  className="piece-line"
                  data-look="broken"
                  d={pathIn(view, piece.points)}
                />
              ))}
            {tool !== 'points'
              ? null
              : grips.map(({ id, at, spot, size: length }) => {
                  if (length === undefined) return null;
                  const { x, y } = spotIn(view, at);
                  return <path key={`to ${id}`} className="size-way" d={`M${x} ${y}L${spot.x} ${spot.y}`} />;
                })}
            {tool !== 'points'
              ? null
              : grips.map((grip) => (
                  <GroundKnob
                    key={grip.id}
                    id={grip.id}
                    label={grip.label}
                    x={grip.spot.x}
                    y={grip.spot.y}
                    kind={grip.size === undefined ? 'point' : 'size'}
                    mine={samePath(grip.entry, entry)}
                    held={grasping.grasp?.id === grip.id}
                    stuck={why(grip) !== undefined}
                    stop={grip.id === stop}
                    onKey={onKey}
                    onFocus={onFocus}
                    onBlur={onBlur}
                  />
                ))}
          </svg>
        )}
        {view === undefined || sheet ? null : <Flags pieces={pieces} problems={problems} view={view} />}
        {about === undefined || view === undefined || typedGrip !== undefined || tool !== 'points' ? null : (
          <GroundNote
            grip={about}
            grasp={grasping.grasp}
            piece={pieces.find(({ path }) => samePath(path, about.entry))}
            width={view.size.width}
            shown={travelShown(size)}
            why={why(about)}
          />
        )}
        {typedGrip === undefined || view === undefined ? null : (
          <TypedPoint
            grip={typedGrip}
            width={view.size.width}
            onClose={() => {
              setTyped(undefined);
              focusKnob(field.current, typedGrip.id);
            }}
          />
        )}
        {hidden === 0 || tool !== 'points' ? null : (
          <p className="ground-hidden">{hidden.toLocaleString('en')} more points: come closer to see them</p>
        )}
        {tool === 'draw' && view !== undefined ? (
          <DrawLayer
            view={view}
            pieces={pieces}
            field={field}
            onBegin={(station) => makeRoom(camera, station)}
          />
        ) : null}
      </div>
      {tool === 'chain' ? <ChainSheet onLaid={onLaid} /> : null}
      {tool === 'import' ? <ImportSheet onLaid={onLaid} /> : null}
      <p id="ground-handle-help" className="unseen">
        Arrow keys move it by the pitch of the grid, with Shift by a tenth. Enter takes typed figures, Insert
        adds a point, Delete removes it, Escape takes the move back.
      </p>
    </>
  );
}
