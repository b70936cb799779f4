import { lazy, Suspense, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { type Path, pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, type Workbench } from '../app/workbench.ts';
import { BuildStrip } from '../driveline/BuildStrip.tsx';
import type { Remark } from '../edits/edit.ts';
import { handlesOf } from '../edits/handles.ts';
import { Comparison } from '../panels/Comparison.tsx';
import { WriterProvider } from '../panels/fields/writer.ts';
import { DocumentProblems, ProblemList, RefusedFile } from '../panels/Problems.tsx';
import type { Look } from '../solved.ts';
import { samePath, select } from '../store/selection.ts';
import { UnderlayCard } from '../underlay/UnderlayCard.tsx';
import { Answers } from './Answers.tsx';
import { buildingOn, writerOn } from './actions.ts';
import { Bar } from './Bar.tsx';
import { type Building, BuildProvider, type Ties } from './build.ts';
import { Camera } from './camera.ts';
import { Field, stepFor } from './Field.tsx';
import { useGroundBySelection, useGroundOn } from './ground.ts';
import { type KeyWishes, keysOf } from './keys.ts';
import { PartsTree } from './PartsTree.tsx';
import { Selected } from './Selected.tsx';
import { Start } from './Start.tsx';
import './build.css';

/** The ground as a list: loaded when it is first wanted. */
const GroundCard = lazy(async () => ({ default: (await import('../groundwork/GroundCard.tsx')).GroundCard }));

/** Brings another document into sight once it can be drawn. */
function useFitOnOpening({ fit }: Camera): void {
  const opening = useDocument((state) => state.opening);
  const ready = useDesk((state) => state.drawn !== undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: every opening, and the first good document after it.
  useEffect(() => {
    const wait = requestAnimationFrame(fit);
    return () => cancelAnimationFrame(wait);
  }, [opening, ready, fit]);
}

/** Selects a point and puts the keyboard there; it may be on the picture only once it is selected. */
function goTo({ selection }: Workbench, field: HTMLElement | null, entry: Path, point: Path): void {
  select(selection, entry, point);
  requestAnimationFrame(() => {
    const knob = field?.querySelector<HTMLElement>(`.knob[data-id="${CSS.escape(pathText(point))}"]`);
    knob?.focus({ preventScroll: true });
  });
}

/** Goes to the first point of the selected entry. */
function toPoints(bench: Workbench, field: HTMLElement | null): void {
  const { entry } = bench.selection.getState();
  const first = handlesOf(bench.documents.getState().raw).find((each) => samePath(each.entry, entry));
  if (first !== undefined) goTo(bench, field, first.entry, first.path);
}

/** Goes to the next point of the vehicle or the one before; first to one of the selected entry. */
function toPoint(bench: Workbench, field: HTMLElement | null, by: 1 | -1): void {
  const { point, entry } = bench.selection.getState();
  const handles = handlesOf(bench.documents.getState().raw);
  const now = handles.findIndex(({ path }) => samePath(path, point));
  const mine = handles.findIndex((each) => samePath(each.entry, entry));
  const next = handles[now === -1 ? Math.max(mine, 0) : (now + by + handles.length) % handles.length];
  if (next !== undefined) goTo(bench, field, next.entry, next.path);
}

/** Puts the keyboard into the field of the name, and back where it was when that is done. */
function toName(side: HTMLElement | null): void {
  const field = side?.querySelector<HTMLInputElement>('.worded input');
  const was = document.activeElement;
  if (field === null || field === undefined) return;
  field.select();
  const back = ({ key }: KeyboardEvent): void => {
    if (key !== 'Enter' && key !== 'Escape') return;
    field.removeEventListener('keydown', back);
    const focusable = was instanceof HTMLElement || was instanceof SVGElement ? was : undefined;
    requestAnimationFrame(() => focusable?.focus());
  };
  field.addEventListener('keydown', back);
  field.addEventListener('blur', () => field.removeEventListener('keydown', back), { once: true });
}

/** Has the window listen to the builder's keys while it is there. */
function useKeys(wishes: KeyWishes): void {
  const bench = useBench();
  const rows = useRef(keysOf(wishes));
  rows.current = keysOf(wishes);
  // Before anything that puts keys of its own before these.
  useLayoutEffect(() => {
    // Rows are looked up when a key is pressed: what they do is always the newest.
    bench.moreKeys = rows.current.map((row, i) => ({ ...row, run: (now) => rows.current[i]?.run(now) }));
    return () => {
      bench.moreKeys = [];
    };
  }, [bench]);
}

/** What there is to tell about the last change. */
function Remarks({ remarks, onSeen }: { readonly remarks: readonly Remark[]; readonly onSeen: () => void }) {
  if (remarks.length === 0) return null;
  return (
    <section className="refused remarks" aria-label="About the last change" role="status">
      <ProblemList problems={remarks} />
      <button type="button" className="button small" onClick={onSeen}>
        Seen
      </button>
    </section>
  );
}

/** The parts that stand round the drawing, and what is done with the keyboard between them. */
function useFrame(building: Building) {
  const bench = useBench();
  const { selection, settings, desk } = bench;
  const field = useRef<HTMLElement>(null);
  const side = useRef<HTMLElement>(null);
  const addButton = useRef<HTMLButtonElement>(null);
  const [camera] = useState(() => new Camera(field));
  const [ties, setTies] = useState<Ties>({ alone: false, holdRods: false });
  const turn = (tie: keyof Ties) => setTies((now) => ({ ...now, [tie]: !now[tie] }));
  const [starting, setStarting] = useState(false);
  const isNothing = useDocument(({ raw }) => raw === null);
  const withEntry = (does: (entry: Path) => void) => () => {
    const { entry } = selection.getState();
    if (entry !== undefined && typeof entry.at(-1) === 'number') does(entry);
  };
  useFitOnOpening(camera);
  useKeys({
    add: () => addButton.current?.click(),
    remove: withEntry(building.remove),
    duplicate: withEntry(building.duplicate),
    mirror: withEntry(building.mirror),
    rename: () => toName(side.current),
    carry: (x, z) => {
      const step = stepFor(settings.getState().pitch, desk.state().drawn?.mechanism.size);
      withEntry((entry) => building.carry(entry, { x: x * step, z: z * step }))();
    },
    alone: () => turn('alone'),
    holdRods: () => turn('holdRods'),
    point: (by) => toPoint(bench, field.current, by),
    fit: camera.fit,
    zoom: camera.zoom,
    tree: () => document.querySelector<HTMLElement>('.parts [tabindex="0"]')?.focus(),
    leave: () => {
      if (starting && !isNothing) setStarting(false);
      else select(selection, undefined);
    },
  });
  return { field, side, addButton, camera, ties, turn, starting, setStarting, isNothing };
}

/** The vehicle as it is drawn, still and large, with everything that it is made of by hand. */
export function Builder({ look }: { readonly look: Look }) {
  const bench = useBench();
  const opening = useDocument((state) => state.opening);
  const [remarks, setRemarks] = useState<readonly Remark[]>([]);
  const building = useMemo(() => buildingOn(bench, setRemarks), [bench]);
  const write = useMemo(() => writerOn(bench, building), [bench, building]);
  const onGround = useGroundOn();
  useGroundBySelection();
  const frame = useFrame(building);
  const { field, side, addButton, camera, ties, turn, starting, setStarting, isNothing } = frame;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was told belongs to the document that was open.
  useEffect(() => {
    setRemarks([]);
    setStarting(false);
  }, [opening, setStarting]);
  return (
    <BuildProvider value={building}>
      <WriterProvider value={write}>
        <main className="drawing building">
          <Bar
            addButton={addButton}
            ties={ties}
            onTie={turn}
            onFit={camera.fit}
            onZoom={camera.zoom}
            onStart={() => setStarting(true)}
          />
          <nav className="parts-column" aria-label="Parts">
            {isNothing ? null : <PartsTree onEnter={() => toPoints(bench, field.current)} />}
          </nav>
          <section
            className="picture"
            aria-label={onGround ? 'The ground' : 'The vehicle as it is drawn'}
            ref={field}
          >
            <Field camera={camera} field={field} ties={ties} look={look} />
            <p id="build-handle-help" className="unseen">
              Arrow keys move it by the pitch of the grid, with Shift by a tenth, with Alt alone. Enter takes
              typed figures, Escape takes the move back.
            </p>
            {starting || isNothing ? (
              <Start onLeave={isNothing ? undefined : () => setStarting(false)} />
            ) : null}
          </section>
          <BuildStrip look={look} sight={camera.sight} field={field} />
          <Answers />
        </main>
        <aside className="side building-side" aria-label="The selected part" ref={side}>
          <RefusedFile />
          <DocumentProblems />
          <Remarks remarks={remarks} onSeen={() => setRemarks([])} />
          {onGround ? (
            <Suspense>
              <GroundCard />
            </Suspense>
          ) : (
            <UnderlayCard sight={camera.sight} field={field} />
          )}
          <Selected key={opening} />
          <Comparison />
        </aside>
      </WriterProvider>
    </BuildProvider>
  );
}
