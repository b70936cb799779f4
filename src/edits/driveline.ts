import type { Path } from '../../shared/path.ts';
import { type DriveLayout, driveLayouts, startingFigures } from '../../sim/driveline/layouts.ts';
import { wayUp } from '../../sim/driveline/linear.ts';
import { compileChecked } from '../../sim/mechanism/compile.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt, withoutValue, withValue } from '../documents/json.ts';
import { addEntry } from './add.ts';
import { declined, type Edit, edited } from './edit.ts';
import { writePoint } from './figures.ts';
import { entriesAt } from './lists.ts';
import { moveEntry } from './move.ts';
import { removeEntry } from './remove.ts';
import { written } from './written.ts';

const PARTS = ['vehicle', 'driveline', 'parts'] as const;

type Entry = { readonly [key: string]: Json };

const pathOf = (index: number): Path => [...PARTS, index];

function entryAt(document: Json, index: number): Entry | undefined {
  const value = valueAt(document, pathOf(index));
  return isObject(value) ? value : undefined;
}

const nameOf = (entry: Entry | undefined): string => (typeof entry?.name === 'string' ? entry.name : '');

const namesIn = (value: Json | undefined): readonly string[] =>
  typeof value === 'string' ? [value] : isList(value) ? value.filter((each) => typeof each === 'string') : [];

/** Whether an entry is a part of the drive line. */
export const isDrivePart = (path: Path): boolean =>
  path.length === PARTS.length + 1 && PARTS.every((step, i) => step === path[i]);

const isSource = (entry: Entry | undefined): boolean => entry?.kind === 'motor' || entry?.kind === 'engine';

/** The entry with other parts that turn it: one as a name, several as a list, none without the field. */
function turnedBy(document: Json, index: number, names: readonly string[]): Json {
  const path = [...pathOf(index), 'from'];
  if (names.length > 0) return withValue(document, path, names.length === 1 ? (names[0] as string) : names);
  return valueAt(document, path) === undefined ? document : withoutValue(document, path);
}

/** The entry with other axle lines that it turns. */
function turning(document: Json, index: number, names: readonly string[]): Json {
  const path = [...pathOf(index), 'wheels'];
  if (names.length > 0) return withValue(document, path, names);
  return valueAt(document, path) === undefined ? document : withoutValue(document, path);
}

/** Whether a part is turned, over any number of others, by the one of this name. */
function dependsOn(document: Json, index: number, name: string): boolean {
  const entries = entriesAt(document, PARTS);
  const seen = new Set<string>();
  const queue = [nameOf(entryAt(document, index))];
  for (let now = queue.pop(); now !== undefined; now = queue.pop()) {
    if (now === name) return true;
    if (seen.has(now)) continue;
    seen.add(now);
    queue.push(...namesIn(entries.find(({ value }) => value.name === now)?.value.from));
  }
  return false;
}

/**
 * Has a part of the drive line turned by another one; a motor that is hung on a part turns it, beside what turns it
 * already. Declined where it would turn itself.
 */
export function hangPart(document: Json, index: number, on: number): Edit {
  const [part, target] = [entryAt(document, index), entryAt(document, on)];
  const [name, other] = [nameOf(part), nameOf(target)];
  const says = `hang ${name} on ${other}`;
  const path = `vehicle.driveline.parts[${index}].from`;
  if (part === undefined || target === undefined || index === on)
    return declined(document, says, path, 'there is no such part');
  const select = pathOf(index);
  if (isSource(part)) {
    if (isSource(target)) return declined(document, says, path, 'nothing turns a motor or an engine');
    const names = namesIn(target.from);
    const after = names.includes(name) ? document : turnedBy(document, on, [...names, name]);
    return edited(document, after, says, { select });
  }
  if (dependsOn(document, on, name))
    return declined(document, says, path, `'${other}' is turned by '${name}': it would turn itself`);
  return edited(document, turnedBy(document, index, [other]), says, { select });
}

/** Has a part turn an axle line; the part that turned it before does so no longer. */
export function turnLine(document: Json, index: number, wheel: string): Edit {
  const part = entryAt(document, index);
  const says = `let ${nameOf(part)} turn ${wheel}`;
  if (part === undefined)
    return declined(document, says, `vehicle.driveline.parts[${index}]`, 'there is no such part');
  const freed = entriesAt(document, PARTS).reduce<Json>((now, { path, value }) => {
    const names = namesIn(value.wheels);
    const at = Number(path.at(-1));
    return at === index || !names.includes(wheel)
      ? now
      : turning(
          now,
          at,
          names.filter((each) => each !== wheel),
        );
  }, document);
  const own = namesIn(part.wheels);
  const after = own.includes(wheel) ? freed : turning(freed, index, [...own, wheel]);
  return edited(document, after, says, { select: pathOf(index) });
}

/**
 * Moves a part of the drive line along and up the vehicle, m: its place and its ends; one that has no place yet gets one.
 * @param taken where it is taken to lie without a place of its own, m
 */
export function movePart(
  document: Json,
  index: number,
  by: { readonly x: number; readonly z: number },
  taken: { readonly x: number; readonly z: number },
): Edit {
  const entry = entryAt(document, index);
  const says = `move ${nameOf(entry)}`;
  if (entry === undefined)
    return declined(document, says, `vehicle.driveline.parts[${index}]`, 'there is no such part');
  if (isObject(entry.at) || isList(entry.ends)) return { ...moveEntry(document, pathOf(index), by), says };
  const at = writePoint({ x: taken.x + by.x, z: taken.z + by.z }, { x: '0 mm', z: '0 mm' }, 1e-4);
  return edited(document, withValue(document, [...pathOf(index), 'at'], at), says);
}

/**
 * Adds a part of a kind behind another one: it takes over the axle lines that this one turns, so that it stands between
 * them. A motor behind a part turns it. Without another part it goes behind the last one.
 */
export function addPart(document: Json, kind: string, behind: number | undefined): Edit {
  const added = addEntry(document, PARTS, kind);
  const index = Number(added.select?.at(-1));
  const part = entryAt(added.document, index);
  const target = behind === undefined ? undefined : entryAt(document, behind);
  if (added.select === undefined || part === undefined || behind === undefined || target === undefined)
    return added;
  const says = `${added.says} behind ${nameOf(target)}`;
  if (isSource(part)) {
    const bare = turning(added.document, index, []);
    return edited(document, hangPart(bare, index, behind).document, says, { select: added.select });
  }
  const lines = namesIn(target.wheels);
  const hung = turnedBy(added.document, index, [nameOf(target)]);
  const after = turning(turning(hung, behind, []), index, lines);
  return edited(document, after, says, { select: added.select });
}

/** Removes a part of the drive line; what it turned is turned by what turned it, axle lines too. */
export function removePart(document: Json, index: number): Edit {
  const entry = entryAt(document, index);
  if (entry === undefined) return removeEntry(document, pathOf(index));
  const name = nameOf(entry);
  const above = namesIn(entry.from);
  const closed = entriesAt(document, PARTS).reduce<Json>((now, { path, value }) => {
    const names = namesIn(value.from);
    const others = names.filter((each) => each !== name);
    return names.includes(name)
      ? turnedBy(now, Number(path.at(-1)), [...others, ...above.filter((each) => !others.includes(each))])
      : now;
  }, document);
  const heir = entriesAt(document, PARTS)
    .find(({ value }) => value.name === above[0])
    ?.path.at(-1);
  const lines = namesIn(entry.wheels);
  const left =
    typeof heir === 'number' && lines.length > 0
      ? turning(turning(closed, index, []), heir, [...namesIn(entryAt(closed, heir)?.wheels), ...lines])
      : closed;
  const removed = removeEntry(left, pathOf(index));
  return edited(document, removed.document, removed.says);
}

/** The layouts that a drive line can be begun with. */
export const driveLineLayouts: readonly Pick<DriveLayout, 'kind' | 'title' | 'says'>[] = driveLayouts;

/** Figures of the drive line that there is, as far as it can be built: its motor, battery and whole reductions. */
function presentFigures(scenario: Scenario, motors: number) {
  const figures = startingFigures(scenario.vehicle, motors);
  const { driveline } = scenario.vehicle;
  const compiled = driveline === undefined ? undefined : compileChecked(scenario);
  const present = compiled?.ok === true ? compiled.value.driveline : undefined;
  const motor = driveline?.parts.find((part) => part.kind === 'motor');
  if (present === undefined || motor?.kind !== 'motor') return figures;
  const lines = present.lastPart.flatMap((last, wheel) =>
    last < 0
      ? []
      : [{ wheel, ratio: wayUp(present, last).reduce((ratio, part) => ratio * part.law.ratio, 1) }],
  );
  const { battery } = driveline ?? {};
  return {
    motor,
    lines: lines.length === 0 ? figures.lines : lines,
    ...(battery === undefined ? {} : { battery }),
  };
}

/** What the drive line decides goes from the document: the torque and the sharing that were written before. */
function withoutOlder(document: Json): Json {
  return (['torquePerWheel', 'sharing'] as const).reduce<Json>((now, key) => {
    const path = ['vehicle', 'drive', key];
    return valueAt(now, path) === undefined ? now : withoutValue(now, path);
  }, document);
}

/**
 * Lays the drive line out anew. Motor, battery and whole reductions of the one that there is are kept; otherwise they are
 * what the vehicle needs for its speed and weight, to begin with.
 */
export function layOutDriveline(document: Json, kind: string): Edit {
  const layout = driveLayouts.find((each) => each.kind === kind);
  const says = `lay out drive line: ${layout?.title.toLowerCase() ?? kind}`;
  const refuse = (why: string) => declined(document, says, 'vehicle.driveline', why);
  if (layout === undefined) return refuse('there is no such layout');
  const bare = isObject(valueAt(document, ['vehicle', 'driveline']))
    ? withoutValue(document, ['vehicle', 'driveline'])
    : document;
  const read = [document, bare]
    .map((each) => readScenario(each, { file: () => undefined }))
    .find((each) => each.ok);
  if (read?.ok !== true) return refuse('the rest of the vehicle has problems; solve these first');
  const motors = kind === 'motor-per-axle' ? read.value.vehicle.wheels.length : 1;
  const built = layout.build(read.value.vehicle, presentFigures(read.value, motors));
  if (built === undefined) return refuse('there is no bogie beam with two driven axle lines for it');
  const whole = withoutOlder(withValue(document, ['vehicle', 'driveline'], built as unknown as Json));
  return edited(document, written(whole, ['vehicle', 'driveline']), says, { select: pathOf(0) });
}
