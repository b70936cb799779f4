import type { StrengthKind } from '../../sim/strength/kind.ts';
import { strengthKinds } from '../../sim/strength/registry.ts';
import { isList, isObject, type Json } from '../documents/json.ts';
import { jointOf } from './carriage.ts';
import { entriesAt } from './lists.ts';
import { moversOf } from './room.ts';
import type { Site } from './site.ts';

/**
 * Puts a new drive line part behind the last one, which turns it; a first one, or a further motor, turns the axle lines
 * that nothing turns yet.
 */
export function placePart({ document }: Site, entry: Json): Json {
  if (!isObject(entry)) return entry;
  const parts = entriesAt(document, ['vehicle', 'driveline', 'parts']);
  const last = parts.at(-1)?.value.name;
  const turned = parts.flatMap(({ value }) => (isList(value.wheels) ? value.wheels : []));
  const idle = entriesAt(document, ['vehicle', 'wheels']).flatMap(({ value }) =>
    typeof value.name === 'string' && !turned.includes(value.name) ? [value.name] : [],
  );
  const { kind, ...figures } = entry;
  const isSource = kind === 'motor' || typeof last !== 'string';
  return {
    kind: kind ?? '',
    ...(isSource ? {} : { from: last }),
    ...(idle.length === 0 ? {} : { wheels: idle }),
    ...figures,
    // A motor that turns wheels by itself lies as they do.
    ...(kind === 'motor' && idle.length > 0 ? { axis: 'across' } : {}),
  };
}

/** What strength figures of a kind may be about, as the entry names it; sim/strength/fit.ts decides. */
function strengthTargets(
  { document, carriage }: Site,
  kind: StrengthKind,
): readonly { readonly [key: string]: Json }[] {
  const movers = moversOf(carriage);
  const members = (names: readonly { readonly name: string }[]) =>
    names.map(({ name }) => ({ member: name }));
  const lists: Readonly<Record<StrengthKind['target'], () => readonly { readonly [key: string]: Json }[]>> = {
    pin: () => members(movers.filter(({ turns }) => turns)),
    guide: () => members(movers.filter((m) => jointOf(carriage.tree, m.name)?.kind === 'slide')),
    arm: () => members(movers.filter((m) => m.turns && m.end !== m.at)),
    rod: () =>
      carriage.tree.members.flatMap(({ name, body }) => {
        if (body < 0) return [{ member: name }];
        return jointOf(carriage.tree, name)?.kind === 'free'
          ? [
              { member: name, rod: 'lower' },
              { member: name, rod: 'upper' },
            ]
          : [];
      }),
    stop: () => members(carriage.tree.members.filter(({ bump, droop }) => (bump ?? droop) !== undefined)),
    element: () =>
      entriesAt(document, ['vehicle', 'elements']).flatMap(({ value }) =>
        typeof value.name === 'string' && kind.elements?.includes(String(value.kind)) === true
          ? [{ element: value.name }]
          : [],
      ),
  };
  return lists[kind.target]();
}

/** Makes new strength figures those of the first part that suits their kind and has none yet. */
export function placeStrength(site: Site, entry: Json): Json {
  if (!isObject(entry)) return entry;
  const { kind = '', member: _member, element: _element, rod: _rod, ...figures } = entry;
  const found = (strengthKinds as readonly unknown[] as readonly StrengthKind[]).find((k) => k.kind === kind);
  const targets = found === undefined ? [] : strengthTargets(site, found);
  const told = entriesAt(site.document, ['vehicle', 'strength', 'parts']).filter(
    ({ value }) => value.kind === kind,
  );
  const isTold = (target: { readonly [key: string]: Json }) =>
    told.some(({ value }) => Object.entries(target).every(([key, name]) => value[key] === name));
  const first = targets.find((target) => !isTold(target)) ?? targets[0];
  const none = found?.target === 'element' ? { element: 'chassis' } : { member: 'chassis' };
  return { kind, ...(first ?? none), ...figures };
}
