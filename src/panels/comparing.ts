import { useMemo } from 'react';
import { type Change, compareReports } from '../../sim/report/changes.ts';
import { useDesk, type Workbench } from '../app/workbench.ts';
import type { DocumentState } from '../store/document.ts';
import { type Way, wayOf } from './judge.ts';

/** What a run is called: by the last step of its document. */
export const runName = ({ past }: Pick<DocumentState, 'past'>): string => {
  const last = past.at(-1)?.says;
  return last === undefined ? 'as it was opened' : `after '${last}'`;
};

/** Keeps the run on show, called by the last step of its document. */
export const keepRun = ({ desk, documents }: Workbench): void => desk.keep(runName(documents.getState()));

/** What the run on show is held against, in words. */
export function useBeforeName(): string {
  const pinned = useDesk((state) => state.pinned);
  const name = useDesk((state) => state.keptAs);
  if (!pinned) return 'the run before';
  return name === undefined ? 'the kept run' : `the kept run, ${name}`;
}

/** Changes with the way each of them goes; undefined while there is no run to compare with. */
export function useChanges(): readonly { readonly change: Change; readonly way: Way }[] | undefined {
  const before = useDesk((state) => state.before?.report);
  const after = useDesk((state) => state.solved?.report);
  return useMemo(() => {
    if (before === undefined || after === undefined || before === after) return undefined;
    return compareReports(before, after).map((change) => ({ change, way: wayOf(change) }));
  }, [before, after]);
}
