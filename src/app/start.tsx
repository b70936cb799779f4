import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import type { startEngine } from '../runs/headstart.ts';
import { openDocument } from '../store/document.ts';
import './fonts.css';
import './base.css';
import './shell.css';
import './side.css';
import './panels.css';
import './fields.css';
import './timeline.css';
import { App } from './App.tsx';
import { BenchProvider, createWorkbench, type Workbench } from './workbench.ts';

/** How long the first run is on show before what keeps documents is loaded, ms: until the window has drawn it. */
const DRAWN = 300;

/** Has documents kept from the first answer on, or from the first change if that comes earlier. */
function keepSoon({ desk, documents, keeper }: Workbench): void {
  const begin = (): void => {
    unwatch();
    unsubscribe();
    keeper()
      // Loaded ahead: messages and saving must work also when the server is gone.
      .then(() => import('../keeping/KeepingView.tsx'))
      .catch(() => undefined);
  };
  const unwatch = desk.watch(() => {
    if (desk.state().solved === undefined) return;
    unwatch();
    performance.mark('first answer');
    setTimeout(begin, DRAWN);
  });
  const unsubscribe = documents.subscribe(({ raw }, last) => {
    if (raw !== last.raw) begin();
  });
}

/** Puts the window on the page and opens in it what the engine is already driving. */
export async function start({ solver, opening }: ReturnType<typeof startEngine>): Promise<void> {
  const root = document.getElementById('root');
  if (root === null) throw new Error('the page has no place for the app');
  const keep = async () => {
    const [{ startKeeping }, opened] = await Promise.all([import('../keeping/start.ts'), opening]);
    return startKeeping(bench, opened?.beginning);
  };
  const bench = createWorkbench(solver, keep);
  createRoot(root).render(
    <StrictMode>
      <BenchProvider value={bench}>
        <App />
      </BenchProvider>
    </StrictMode>,
  );
  const opened = await opening;
  if (opened !== undefined)
    openDocument(bench.documents, opened.name, opened.text, opened.written, opened.known);
  keepSoon(bench);
}
