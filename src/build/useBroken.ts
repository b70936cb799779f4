import type { Path } from '../../shared/path.ts';
import { pathText } from '../../shared/path.ts';
import { useDesk } from '../app/workbench.ts';
import type { DeskState } from '../runs/desk.ts';

/** Why the vehicle cannot be as it is drawn now: first what is wrong with the entry in hand, then with any other. */
export function whyBroken(
  { problems, phase }: Pick<DeskState, 'problems' | 'phase'>,
  entry: Path | undefined,
): string | undefined {
  const errors = problems.filter(({ severity }) => severity === 'error');
  const place = entry === undefined ? undefined : pathText(entry);
  const own = errors.find(({ path }) => place !== undefined && path.startsWith(place)) ?? errors[0];
  if (own !== undefined) return own.hint === undefined ? own.message : `${own.message}: ${own.hint}`;
  return phase.kind === 'failed' ? phase.message : undefined;
}

/** The same of the document as it stands; undefined when the vehicle can be built and stands. */
export function useBroken(entry: Path | undefined): string | undefined {
  return useDesk((state) => whyBroken(state, entry));
}
