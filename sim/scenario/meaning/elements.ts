import { distance } from '../../../shared/geometry/vec.ts';
import type { Problems } from '../../../shared/problem.ts';
import { elementKinds } from '../../elements/registry.ts';
import type { Tree } from '../../mechanism/build.ts';
import type { Coordinate } from '../../mechanism/mechanism.ts';
import type { Draft } from '../draft.ts';
import type { EntryCheck } from './check.ts';

type Element = NonNullable<Draft['elements'][number]>;

/** What an element must be able to act along there: a way in m, or a turn in rad. */
function wayOf(coordinate: Coordinate, tree: Tree): 'travel' | 'twist' {
  return coordinate.kind === 'joint' && tree.joints[coordinate.joint]?.kind === 'hinge' ? 'twist' : 'travel';
}

function tellWay(element: Element, way: 'travel' | 'twist', path: string, problems: Problems): void {
  const acts: readonly string[] = elementKinds.find((kind) => kind.kind === element.kind)?.acts ?? [];
  if (acts.includes(way)) return;
  if (way === 'twist')
    problems.error(
      path,
      `a ${element.kind} acts along a line, and this member turns`,
      'give it two points, "from" and "to", or use an element that turns',
    );
  else
    problems.error(
      path,
      `a ${element.kind} acts on a turn, and there is none here`,
      'name a member that turns: an arm, a beam or a housing',
    );
}

function tellSpan(element: Element, i: number, tree: Tree, problems: Problems): void {
  if ('member' in element.on) return;
  const { from, to } = element.on;
  const path = `vehicle.elements[${i}].on`;
  tellWay(element, 'travel', path, problems);
  const a = tree.bodyOf.get(from.on);
  const b = tree.bodyOf.get(to.on);
  // A name that nothing has was told with the names.
  if (a === undefined || b === undefined) return;
  if (a === b)
    problems.error(
      `${path}.to.on`,
      'both ends lie on the same body, so the element never moves',
      'join two members that move against each other',
    );
  else if (distance(from, to) === 0)
    problems.error(
      `${path}.to`,
      'lies on the other end, so the element has no direction',
      'move one of the ends',
    );
}

/** An element acts along something that moves, in a way that its kind can act. */
export const elementsAct: EntryCheck = (draft, tree, problems) => {
  draft.elements.forEach((element, i) => {
    if (element === undefined) return;
    const { on } = element;
    if (!('member' in on)) {
      tellSpan(element, i, tree, problems);
      return;
    }
    const member = tree.members.find((m) => m.name === on.member);
    const path = `vehicle.elements[${i}].on.member`;
    if (member === undefined) return;
    if (member.coordinate === undefined)
      problems.error(
        path,
        `'${on.member}' (${member.kind}) has no travel of its own`,
        'give the element two points, "from" and "to"',
      );
    else tellWay(element, wayOf(member.coordinate, tree), path, problems);
  });
};
