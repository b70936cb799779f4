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
import { BenchProvider, createWorkbench } from './workbench.ts';

/** Puts the window on the page and opens in it what the engine is already driving. */
export async function start({ solver, opening }: ReturnType<typeof startEngine>): Promise<void> {
  const root = document.getElementById('root');
  if (root === null) throw new Error('the page has no place for the app');
  const bench = createWorkbench(solver);
  createRoot(root).render(
    <StrictMode>
      <BenchProvider value={bench}>
        <App />
      </BenchProvider>
    </StrictMode>,
  );
  const opened = await opening;
  if (opened !== undefined) openDocument(bench.documents, opened.name, opened.text, opened.raw);
}
