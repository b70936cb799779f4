import { lazy, Suspense, useEffect } from 'react';
import { Bands } from '../charts/Bands.tsx';
import { Strips } from '../charts/Strips.tsx';
import { isEdited } from '../store/document.ts';
import { Announcer } from './Announcer.tsx';
import { Boundary } from './Boundary.tsx';
import { DropZone } from './DropZone.tsx';
import { Header } from './Header.tsx';
import { listenToKeys } from './keys.ts';
import { Scene } from './Scene.tsx';
import { Side } from './Side.tsx';
import { Timeline } from './Timeline.tsx';
import { useLook } from './theme.ts';
import {
  useBench,
  useDesk,
  useKeeping,
  useNotice,
  useSettings,
  useShown,
  type Workbench,
} from './workbench.ts';

/** Loaded when they are first wanted. */
const Builder = lazy(async () => ({ default: (await import('../build/Builder.tsx')).Builder }));
const RunStrip = lazy(async () => ({ default: (await import('../driveline/RunStrip.tsx')).RunStrip }));
const Asking = lazy(async () => ({ default: (await import('./Asking.tsx')).Asking }));
const KeepingView = lazy(async () => ({ default: (await import('../keeping/KeepingView.tsx')).KeepingView }));
const Palette = lazy(async () => ({ default: (await import('./Palette.tsx')).Palette }));
const Tables = lazy(async () => ({ default: (await import('../reading/Tables.tsx')).Tables }));
const Chooser = lazy(async () => ({ default: (await import('../reading/Chooser.tsx')).Chooser }));
const Lines = lazy(async () => ({ default: (await import('../reading/Lines.tsx')).Lines }));
const RecordTools = lazy(async () => ({
  default: (await import('../reading/RecordTools.tsx')).RecordTools,
}));
const Results = lazy(async () => ({ default: (await import('../studying/Results.tsx')).Results }));
const KeyHelp = lazy(async () => ({ default: (await import('./KeyHelp.tsx')).KeyHelp }));

/** The browser asks before a window closes whose edits are neither in its database, nor on their way, nor in a file. */
function guardUnsaved({ documents, keeping }: Workbench): () => void {
  const guard = (event: BeforeUnloadEvent): void => {
    const state = documents.getState();
    const { trouble, phase } = keeping.getState();
    if (isEdited(state) && (trouble !== undefined || (phase === 'none' && state.readOnly === undefined)))
      event.preventDefault();
  };
  window.addEventListener('beforeunload', guard);
  return () => window.removeEventListener('beforeunload', guard);
}

/** Documents, steps and messages about how they are kept: loaded when there is the first of them. */
function Kept() {
  const wanted = useKeeping(({ view, toast, trouble, elsewhere }) => view ?? toast ?? trouble ?? elsewhere);
  return <Suspense>{wanted === undefined ? null : <KeepingView />}</Suspense>;
}

/** Bands and strips under the picture, on the same ruler. */
function Record({ look }: { readonly look: ReturnType<typeof useLook> }) {
  const { playhead, viewport } = useBench();
  const solved = useShown();
  const before = useDesk((state) => state.before ?? null);
  const axis = useSettings((state) => state.axis);
  const mode = useDesk((state) => state.mode);
  const has = useDesk((state) => state.solved !== undefined);
  // One standing pose has nothing to run over.
  if (mode === 'stand') return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls when the window is low, so the keyboard must reach it.
    <section className="record" aria-label="Bands and strips" tabIndex={0}>
      {solved === null ? null : (
        <>
          <Bands
            solved={solved}
            before={before}
            playhead={playhead}
            viewport={viewport}
            look={look}
            axis={axis}
          />
          <Strips
            solved={solved}
            before={before}
            playhead={playhead}
            viewport={viewport}
            look={look}
            axis={axis}
            tools={<Suspense>{has ? <RecordTools /> : null}</Suspense>}
          />
          <Suspense>
            {has ? (
              <Lines
                solved={solved}
                before={before}
                playhead={playhead}
                viewport={viewport}
                look={look}
                axis={axis}
              />
            ) : null}
          </Suspense>
        </>
      )}
    </section>
  );
}

/** The drive line between picture and record, of a vehicle that has one and moves. */
function DriveLine({ look }: { readonly look: ReturnType<typeof useLook> }) {
  const there = useDesk(({ drawn, mode }) => drawn?.mechanism.driveline !== undefined && mode !== 'stand');
  return (
    <Boundary>
      <Suspense>{there ? <RunStrip look={look} /> : null}</Suspense>
    </Boundary>
  );
}

/** The window: a drawing that moves, its record below it, answers and figures beside it. */
export function App() {
  const bench = useBench();
  const look = useLook();
  const building = useSettings((state) => state.building);
  const tuning = useSettings((state) => state.panel === 'tune');
  const help = useNotice((state) => state.help);
  const palette = useNotice((state) => state.palette);
  const adding = useNotice((state) => state.adding);
  const table = useNotice((state) => state.table !== undefined);
  const asking = useNotice((state) => state.asking !== undefined);
  useEffect(() => listenToKeys(bench), [bench]);
  useEffect(() => guardUnsaved(bench), [bench]);
  return (
    <div className="app">
      <Header />
      {building ? (
        <Boundary>
          <Suspense fallback={<main className="drawing" />}>
            <Builder look={look} />
          </Suspense>
        </Boundary>
      ) : (
        <>
          <main className="drawing">
            <Scene look={look} />
            <DriveLine look={look} />
            {tuning ? (
              <Suspense>
                <Results look={look}>
                  <Record look={look} />
                </Results>
              </Suspense>
            ) : (
              <Record look={look} />
            )}
            <Timeline />
          </main>
          <Side />
        </>
      )}
      <Boundary>
        <Suspense>{help ? <KeyHelp /> : null}</Suspense>
        <Suspense>{palette ? <Palette /> : null}</Suspense>
        <Suspense>{adding ? <Chooser /> : null}</Suspense>
        <Suspense>{table ? <Tables /> : null}</Suspense>
        <Suspense>{asking ? <Asking /> : null}</Suspense>
        <Kept />
      </Boundary>
      <DropZone />
      <Announcer />
    </div>
  );
}
