import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './app/fonts.css';
import './app/base.css';
import './app/shell.css';
import './app/side.css';
import './app/fields.css';
import './app/timeline.css';
import { App } from './app/App.tsx';
import { takeFlagship } from './app/actions.ts';
import { BenchProvider, createWorkbench } from './app/workbench.ts';

const root = document.getElementById('root');
if (root === null) throw new Error('the page has no place for the app');
const bench = createWorkbench();
takeFlagship(bench);
createRoot(root).render(
  <StrictMode>
    <BenchProvider value={bench}>
      <App />
    </BenchProvider>
  </StrictMode>,
);
