import { elementKinds } from '../../sim/elements/registry.ts';
import { isObject, type Json } from '../documents/json.ts';
import { writePoint } from './figures.ts';
import { entriesAt } from './lists.ts';
import { type Mover, moversOf, nearestTo } from './room.ts';
import type { Site } from './site.ts';

/** Length of a spring between two points, in wheel radii. */
const TALL = 1.2;

/** Names of members on whose own travel an element of this kind acts already. */
function served(document: Json, kind: Json | undefined): ReadonlySet<string> {
  const names = entriesAt(document, ['vehicle', 'elements']).flatMap(({ value }) => {
    const member = isObject(value.on) ? value.on.member : undefined;
    return value.kind === kind && typeof member === 'string' ? [member] : [];
  });
  return new Set(names);
}

/** Whether an element that acts so can act on a mover's own travel. */
const fits = (acts: readonly string[], { turns, hasTravel }: Mover): boolean =>
  hasTravel && acts.includes(turns ? 'twist' : 'travel');

/** Upright between the end of a member and what it hangs on: for an element of travel on a member that turns. */
function between({ carriage, proportions: { radius }, at }: Site, mover: Mover | undefined): Json {
  const foot = mover?.end ?? at ?? { x: 0, z: radius };
  const head = { x: foot.x, z: foot.z + TALL * radius };
  const point = (place: typeof foot, on: string) =>
    writePoint(place, { on, x: '0 mm', z: '0 mm' }, carriage.grid);
  return { from: point(head, mover?.parent ?? 'chassis'), to: point(foot, mover?.name ?? 'chassis') };
}

/**
 * Puts a new element where it can act: on the own travel of a member that has no such element yet (the one nearest to the
 * place asked for), else between a member's end and what it hangs on.
 */
export function placeElement(site: Site, entry: Json): Json {
  if (!isObject(entry)) return entry;
  const acts: readonly string[] = elementKinds.find(({ kind }) => kind === entry.kind)?.acts ?? [];
  const movers = moversOf(site.carriage);
  const fitting = movers.filter((mover) => fits(acts, mover));
  const bare = fitting.filter(({ name }) => !served(site.document, entry.kind).has(name));
  const chosen = nearestTo(
    site.at === undefined && bare.length > 0 ? bare : fitting,
    ({ at }) => at,
    site.at,
  );
  const { kind, ...figures } = entry;
  const on: Json =
    chosen === undefined
      ? between(
          site,
          nearestTo(movers, ({ end }) => end, site.at),
        )
      : { member: chosen.name };
  return { kind: kind ?? '', on, ...figures };
}
