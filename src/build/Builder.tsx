import { useEffect, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, useSettings } from '../app/workbench.ts';
import { boxInPoses, fitDrawing, statureOf, zoomBy } from '../canvas/camera.ts';
import { stepOf } from '../canvas/handles/steps.ts';
import { SceneView } from '../canvas/SceneView.tsx';
import { Sight } from '../canvas/sight.ts';
import type { Remark } from '../edits/edit.ts';
import { handlesOf } from '../edits/handles.ts';
import { Comparison } from '../panels/Comparison.tsx';
import { WriterProvider } from '../panels/fields/writer.ts';
import { DocumentProblems, ProblemList, RefusedFile } from '../panels/Problems.tsx';
import { Playhead } from '../playhead.ts';
import { previewOf } from '../runs/preview.ts';
import type { Look, Solved } from '../solved.ts';
import { select } from '../store/selection.ts';
import { UnderlayCard } from '../underlay/UnderlayCard.tsx';
import { UnderlayPicture } from '../underlay/UnderlayPicture.tsx';
import { Viewport } from '../viewport.ts';
import { Answers } from './Answers.tsx';
import { buildingOn, writerOn } from './actions.ts';
import { Bar, pitchOf } from './Bar.tsx';
import { BuildProvider } from './build.ts';
import { keysOf } from './keys.ts';
import { Overlay } from './Overlay.tsx';
import { PartsTree } from './PartsTree.tsx';
import { Selected } from './Selected.tsx';
import { Start } from './Start.tsx';
import './build.css';

/** Step of the arrow keys where nothing is known of the vehicle's size yet, m. */
const STEP = 0.001;

/** The vehicle as it is drawn, with the loads that its axle lines carry standing, as soon as those are known. */
function useAsDrawn(): Solved | null {
  const drawn = useDesk((state) => state.drawn);
  const standing = useDesk(({ solved }) => solved?.recording.standing.loads);
  return useMemo(() => {
    if (drawn === undefined) return null;
    const fits = standing?.length === drawn.mechanism.wheels.length;
    return previewOf(drawn, fits ? standing : []);
  }, [drawn, standing]);
}

/** The picture's own place to look at: leaving the builder, the window is as it was. */
function useCamera(solved: Solved | null) {
  const [parts] = useState(() => ({
    playhead: new Playhead(),
    viewport: new Viewport(),
    sight: new Sight(),
  }));
  const { viewport } = parts;
  const latest = useRef(solved);
  latest.current = solved;
  const field = useRef<HTMLElement>(null);
  const fit = (): void => {
    const size = { width: field.current?.clientWidth ?? 0, height: field.current?.clientHeight ?? 0 };
    if (latest.current === null || size.width === 0) return;
    const { mechanism, recording } = latest.current;
    const shift = recording.standing.station - mechanism.reference.x;
    const box = boxInPoses(
      mechanism,
      mechanism.bodies.map(() => ({ x: shift, z: 0, angle: 0 })),
    );
    viewport.show(fitDrawing(box, statureOf(mechanism), size));
  };
  const zoom = (way: 'closer' | 'farther'): void => {
    const { from, to } = viewport.window;
    const length = (latest.current?.mechanism.size ?? 0.05) * 20;
    const reach = { least: length / 100, most: length * 100 };
    viewport.show(zoomBy({ from, to }, way === 'closer' ? 1.25 : 0.8, (from + to) / 2, reach));
  };
  return { ...parts, field, fit, zoom };
}

/** Brings another document into sight once it can be drawn. */
function useFitOnOpening(fit: () => void): void {
  const opening = useDocument((state) => state.opening);
  const ready = useDesk((state) => state.drawn !== undefined);
  const latest = useRef(fit);
  latest.current = fit;
  // biome-ignore lint/correctness/useExhaustiveDependencies: every opening, and the first good document after it.
  useEffect(() => {
    const wait = requestAnimationFrame(() => latest.current());
    return () => cancelAnimationFrame(wait);
  }, [opening, ready]);
}

/** The vehicle as it is drawn, still and large, with everything that it is made of by hand. */
export function Builder({ look }: { readonly look: Look }) {
  const bench = useBench();
  const { selection } = bench;
  const raw = useDocument((state) => state.raw);
  const opening = useDocument((state) => state.opening);
  const size = useDesk((state) => state.drawn?.mechanism.size);
  const pitch = pitchOf(useSettings((state) => state.pitch));
  const [alone, setAlone] = useState(false);
  const [starting, setStarting] = useState(false);
  const [remarks, setRemarks] = useState<readonly Remark[]>([]);
  const building = useMemo(() => buildingOn(bench, setRemarks), [bench]);
  const write = useMemo(() => writerOn(bench, building), [bench, building]);
  const handles = useMemo(() => (raw === null ? [] : handlesOf(raw)), [raw]);
  const solved = useAsDrawn();
  const { playhead, viewport, sight, field, fit, zoom } = useCamera(solved);
  const addButton = useRef<HTMLButtonElement>(null);
  const side = useRef<HTMLElement>(null);
  const empty = starting || raw === null;
  useFitOnOpening(fit);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was told belongs to the document that was open.
  useEffect(() => {
    setRemarks([]);
    setStarting(false);
  }, [opening]);

  const knob = (id: string): HTMLElement | null | undefined =>
    field.current?.querySelector<HTMLElement>(`.knob[data-id="${CSS.escape(id)}"]`);
  const toPoints = (): void => {
    const { entry } = selection.getState();
    const first = handles.find((each) => entry !== undefined && pathText(each.entry) === pathText(entry));
    if (first === undefined) return;
    select(selection, first.entry, first.path);
    requestAnimationFrame(() => knob(pathText(first.path))?.focus({ preventScroll: true }));
  };
  const toPoint = (by: 1 | -1): void => {
    const { point, entry } = selection.getState();
    const now = handles.findIndex(({ path }) => point !== undefined && pathText(path) === pathText(point));
    const mine = handles.findIndex((each) => entry !== undefined && pathText(each.entry) === pathText(entry));
    const next = handles[now === -1 ? Math.max(mine, 0) : (now + by + handles.length) % handles.length];
    if (next === undefined) return;
    select(selection, next.entry, next.path);
    requestAnimationFrame(() => knob(pathText(next.path))?.focus({ preventScroll: true }));
  };
  const withEntry =
    (does: (entry: NonNullable<ReturnType<typeof selection.getState>['entry']>) => void) => () => {
      const { entry } = selection.getState();
      if (entry !== undefined && typeof entry.at(-1) === 'number') does(entry);
    };
  const keys = useRef(keysOf({} as never));
  keys.current = keysOf({
    add: () => addButton.current?.click(),
    remove: withEntry(building.remove),
    duplicate: withEntry(building.duplicate),
    mirror: withEntry(building.mirror),
    rename: () => side.current?.querySelector<HTMLInputElement>('.worded input')?.select(),
    alone: () => setAlone((on) => !on),
    point: toPoint,
    fit,
    zoom,
    tree: () => document.querySelector<HTMLElement>('.parts [tabindex="0"]')?.focus(),
    leave: () => {
      if (starting && raw !== null) setStarting(false);
      else select(selection, undefined);
    },
  });
  useEffect(() => {
    // Rows are looked up when a key is pressed: what they do is always the newest.
    bench.moreKeys = keys.current.map((row, i) => ({ ...row, run: (now) => keys.current[i]?.run(now) }));
    return () => {
      bench.moreKeys = [];
    };
  }, [bench]);

  return (
    <BuildProvider value={building}>
      <WriterProvider value={write}>
        <main className="drawing building">
          <Bar
            addButton={addButton}
            alone={alone}
            onAlone={() => setAlone((on) => !on)}
            onFit={fit}
            onZoom={zoom}
            onStart={() => setStarting(true)}
          />
          <nav className="parts-column" aria-label="Parts">
            {raw === null ? null : <PartsTree onEnter={toPoints} />}
          </nav>
          <section className="picture" aria-label="The vehicle as it is drawn" ref={field}>
            <SceneView
              solved={solved}
              before={null}
              playhead={playhead}
              viewport={viewport}
              look={look}
              follow={false}
              onFollow={() => undefined}
              sight={sight}
              closeUp
            />
            <UnderlayPicture sight={sight} field={field} />
            <Overlay
              sight={sight}
              handles={handles}
              manner={{ pitch, step: pitch ?? (size === undefined ? STEP : stepOf(size)), alone }}
              look={look}
              field={field}
            />
            <p id="build-handle-help" className="unseen">
              Arrow keys move it by the pitch of the grid, with Shift by a tenth, with Alt alone. Enter takes
              typed figures, Escape takes the move back.
            </p>
            {empty ? <Start onLeave={raw === null ? undefined : () => setStarting(false)} /> : null}
          </section>
          <Answers />
        </main>
        <aside className="side building-side" aria-label="The selected part" ref={side}>
          <RefusedFile />
          <DocumentProblems />
          {remarks.length === 0 ? null : (
            <section className="refused remarks" aria-label="About the last change" role="status">
              <ProblemList problems={remarks} />
              <button type="button" className="button small" onClick={() => setRemarks([])}>
                Seen
              </button>
            </section>
          )}
          <UnderlayCard sight={sight} field={field} />
          <Selected key={opening} />
          <Comparison />
        </aside>
      </WriterProvider>
    </BuildProvider>
  );
}
