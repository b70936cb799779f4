import { useMemo } from 'react';
import type { Problem } from '../../shared/problem.ts';
import { useDesk } from '../app/workbench.ts';
import type { Tree } from './tree.ts';

/** What is wrong with each part, by index: the first error of the document's check that is about it. */
export function brokenIn(problems: readonly Problem[], tree: Tree): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  for (const { path, message, hint, severity } of problems) {
    const index = /^vehicle\.driveline\.parts\[(\d+)\]/.exec(path)?.[1];
    if (severity !== 'error' || index === undefined || found.has(Number(index))) continue;
    found.set(Number(index), hint === undefined ? message : `${message}: ${hint}`);
  }
  for (const { index, cut } of tree.parts)
    if (cut && !found.has(index)) found.set(index, 'what turns it is not there, or it turns itself');
  return found;
}

/** The same of the document as it stands. */
export function useBrokenParts(tree: Tree): ReadonlyMap<number, string> {
  const problems = useDesk((state) => state.problems);
  return useMemo(() => brokenIn(problems, tree), [problems, tree]);
}
