import type { StudyNews, StudyOrder } from './study-protocol.ts';

/** Begins a job in a worker of its own. `tell` hears of it until the way to end it, which is returned, is taken. */
export type Begin = (order: StudyOrder, tell: (news: StudyNews) => void) => () => void;

/** Begins a job; its worker ends with its last news. */
export const beginStudy: Begin = (order, tell) => {
  const worker = new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module', name: 'study' });
  worker.onmessage = ({ data }: MessageEvent<StudyNews>) => {
    if (data.kind !== 'progress' && data.kind !== 'tile') worker.terminate();
    tell(data);
  };
  worker.onerror = ({ message }) => {
    worker.terminate();
    tell({ kind: 'failed', message: message || 'the solver could not be loaded' });
  };
  worker.postMessage(order);
  return () => {
    worker.onmessage = null;
    worker.onerror = null;
    worker.terminate();
  };
};
