import { didYouMean } from '../../../shared/near.ts';
import type { Problems } from '../../../shared/problem.ts';
import type { Sharing, SharingTree } from '../../../shared/schema/scenario.ts';
import type { WholeCheck } from './check.ts';

/** A drive tree names each driven axle line once, and no other. */
export const sharingNamesDriven: WholeCheck = ({ scenario, mechanism }, problems) => {
  const { sharing } = scenario.vehicle.drive;
  if (typeof sharing === 'string') return;
  const known = mechanism.wheels.map((w) => w.name);
  const driven = new Set(mechanism.wheels.filter((w) => w.driven).map((w) => w.name));
  const seen = new Set<string>();
  walk(sharing, 'vehicle.drive.sharing', (name, path) => {
    if (!known.includes(name)) unknown(name, path, known, problems);
    else if (!driven.has(name))
      problems.error(path, `'${name}' is not driven`, 'add it to drive.driven, or leave it out of the tree');
    else if (seen.has(name))
      problems.error(path, `'${name}' stands in the tree twice`, 'a line has one drive');
    seen.add(name);
  });
  for (const name of driven)
    if (!seen.has(name))
      problems.error('vehicle.drive.sharing', `leaves out '${name}', which is driven`, 'add it to a branch');
};

function unknown(name: string, path: string, known: readonly string[], problems: Problems): void {
  const hint = didYouMean(name, known) ?? `known: ${known.join(', ')}`;
  problems.error(path, `no axle line is called '${name}'`, hint);
}

/** Calls `tell` for each axle line of a tree with its path. */
function walk(
  tree: Exclude<Sharing, string>,
  path: string,
  tell: (name: string, path: string) => void,
): void {
  for (const [kind, branches] of Object.entries(tree) as [string, readonly (string | SharingTree)[]][])
    branches.forEach((branch, i) => {
      const at = `${path}.${kind}[${i}]`;
      if (typeof branch === 'string') tell(branch, at);
      else walk(branch, at, tell);
    });
}
