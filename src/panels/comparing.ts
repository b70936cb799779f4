import { useMemo } from 'react';
import { type Change, compareReports } from '../../sim/report/changes.ts';
import { useDesk } from '../app/workbench.ts';
import { type Way, wayOf } from './judge.ts';

/** Changes with the way each of them goes; undefined while there is no run to compare with. */
export function useChanges(): readonly { readonly change: Change; readonly way: Way }[] | undefined {
  const before = useDesk((state) => state.before?.report);
  const after = useDesk((state) => state.solved?.report);
  return useMemo(() => {
    if (before === undefined || after === undefined || before === after) return undefined;
    return compareReports(before, after).map((change) => ({ change, way: wayOf(change) }));
  }, [before, after]);
}
