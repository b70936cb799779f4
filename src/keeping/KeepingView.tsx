import { useKeeping } from '../app/workbench.ts';
import { Bar } from './Bar.tsx';
import { Documents } from './Documents.tsx';
import './keeping.css';
import { Steps } from './Steps.tsx';
import { ToastView } from './ToastView.tsx';

/** All that the window shows of how documents are kept. */
export function KeepingView() {
  const view = useKeeping((state) => state.view);
  return (
    <>
      <Bar />
      {view === 'steps' ? <Steps /> : null}
      {/* What lies beside a modal dialog can't be reached, so messages come into it. */}
      {view === 'documents' ? <Documents /> : <ToastView />}
    </>
  );
}
