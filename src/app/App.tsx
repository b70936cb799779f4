import { useEffect } from 'react';
import { Bands } from '../charts/Bands.tsx';
import { Strips } from '../charts/Strips.tsx';
import { isEdited } from '../store/document.ts';
import { Announcer } from './Announcer.tsx';
import { Asking } from './Asking.tsx';
import { DropZone } from './DropZone.tsx';
import { Header } from './Header.tsx';
import { KeyHelp } from './KeyHelp.tsx';
import { listenToKeys } from './keys.ts';
import { Scene } from './Scene.tsx';
import { Side } from './Side.tsx';
import { Timeline } from './Timeline.tsx';
import { useLook } from './theme.ts';
import { useBench, useDesk, useSettings, useShown, type Workbench } from './workbench.ts';

/** The browser asks before a window with unsaved edits closes. */
function guardUnsaved({ documents }: Workbench): () => void {
  const guard = (event: BeforeUnloadEvent): void => {
    if (isEdited(documents.getState())) event.preventDefault();
  };
  window.addEventListener('beforeunload', guard);
  return () => window.removeEventListener('beforeunload', guard);
}

/** Bands and strips under the picture, on the same ruler. */
function Record({ look }: { readonly look: ReturnType<typeof useLook> }) {
  const { playhead, viewport } = useBench();
  const solved = useShown();
  const before = useDesk((state) => state.before ?? null);
  const axis = useSettings((state) => state.axis);
  const mode = useDesk((state) => state.mode);
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
          />
        </>
      )}
    </section>
  );
}

/** The window: a drawing that moves, its record below it, answers and figures beside it. */
export function App() {
  const bench = useBench();
  const look = useLook();
  useEffect(() => listenToKeys(bench), [bench]);
  useEffect(() => guardUnsaved(bench), [bench]);
  return (
    <div className="app">
      <Header />
      <main className="drawing">
        <Scene look={look} />
        <Record look={look} />
        <Timeline />
      </main>
      <Side />
      <KeyHelp />
      <Asking />
      <DropZone />
      <Announcer />
    </div>
  );
}
