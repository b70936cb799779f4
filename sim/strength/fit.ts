import { didYouMean } from '../../shared/near.ts';
import { coilRate } from '../elements/linear-spring.ts';
import { torsionModulus } from '../elements/section.ts';
import { barRate } from '../elements/torsion-bar.ts';
import { memberLines } from '../joints/line.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Scenario } from '../scenario/schema.ts';
import { usualSafety } from './fields.ts';
import type { ElementFigures, Fitted, StrengthKind, Target } from './kind.ts';
import { strengthKinds } from './registry.ts';
import type { StrengthPart } from './strength.ts';
import { thicknessOf } from './torque.ts';

/** Strength as a scenario has it, and one of its entries. */
export type StrengthSection = NonNullable<Scenario['vehicle']['strength']>;
export type StrengthEntry = StrengthSection['parts'][number];
type ElementEntry = Scenario['vehicle']['elements'][number];

/** The vehicle that entries are fitted to; elements as the document has them, undefined where one could not be read. */
export interface Around extends Pick<Mechanism, 'joints' | 'rods' | 'members'> {
  readonly elements: readonly (ElementEntry | undefined)[];
}

/** What is wrong with an entry: field, words, and what to do. */
export interface Misfit {
  readonly field: string;
  readonly message: string;
  readonly hint: string;
  /** The name in `of` is none of the vehicle. */
  readonly unknown?: true;
}

/** Kind of an entry; every entry of a read scenario has one. */
const kindOf = (entry: StrengthEntry): StrengthKind =>
  (strengthKinds as readonly unknown[] as readonly StrengthKind[]).find(
    (k) => k.kind === entry.kind,
  ) as StrengthKind;

const targetWords: Readonly<Record<Target, string>> = {
  pin: 'pin',
  guide: 'guide',
  rod: 'rod',
  arm: 'arm or beam',
  element: 'spring or bar',
  stop: 'member with stops',
};

/** Names that an entry of a kind may be about; an axle on rods stands for its two rods. */
function namesFor({ target, elements }: StrengthKind, around: Around): readonly string[] {
  const joints = (kind: 'hinge' | 'slide') => around.joints.filter((j) => j.kind === kind).map((j) => j.name);
  const rods = () => [
    ...new Set(
      around.rods.map(({ name }) => around.members.find((m) => isRodOf(m.name, name))?.name ?? name),
    ),
  ];
  const lists: Readonly<Record<Target, () => readonly string[]>> = {
    pin: () => [...joints('hinge'), ...rods()],
    guide: () => joints('slide'),
    rod: rods,
    arm: () => memberLines(around).map((line) => line.name),
    element: () => around.elements.flatMap((e) => (e && elements?.includes(e.kind) ? [e.name] : [])),
    stop: () => around.members.filter((m) => hasStops(m, around)).map((m) => m.name),
  };
  return lists[target]();
}

const rodOf = (member: string, which: 'lower' | 'upper'): string => `${member} ${which} rod`;
const isRodOf = (member: string, rod: string): boolean =>
  rod === rodOf(member, 'lower') || rod === rodOf(member, 'upper');

/** Name of what an entry is about, as recordings have it; or why there is none. */
function nameIn(entry: StrengthEntry, kind: StrengthKind, around: Around): string | Misfit {
  const field = 'element' in entry ? 'element' : 'member';
  const named = 'element' in entry ? entry.element : entry.member;
  const known = namesFor(kind, around);
  if (!known.includes(named)) return unknownName(named, field, kind.target, known);
  if (kind.target !== 'pin' && kind.target !== 'rod') return named;
  const which = 'rod' in entry ? entry.rod : undefined;
  const hasRods = around.rods.some((r) => isRodOf(named, r.name));
  if (hasRods === (which !== undefined)) return which === undefined ? named : rodOf(named, which);
  return hasRods
    ? { field: 'rod', message: `is missing: '${named}' has two rods`, hint: "give 'lower' or 'upper'" }
    : { field: 'rod', message: `does not fit: '${named}' is no axle on rods`, hint: 'leave it out' };
}

const isStopOf = (member: string) => (element: ElementEntry | undefined) =>
  element !== undefined &&
  (element.kind === 'bump-stop' || element.kind === 'droop-stop') &&
  'member' in element.on &&
  element.on.member === member;

const hasStops = ({ name, bump, droop }: Mechanism['members'][number], { elements }: Around): boolean =>
  bump !== undefined || droop !== undefined || elements.some(isStopOf(name));

/**
 * Fits an entry to its part, or tells why it does not fit.
 * @param index of the entry in the document
 */
export function fitEntry(
  entry: StrengthEntry,
  index: number,
  section: Pick<StrengthSection, 'safety' | 'springSafety'>,
  around: Around,
): { readonly part: StrengthPart } | { readonly misfit: Misfit } {
  const kind = kindOf(entry);
  const { target } = kind;
  const of = nameIn(entry, kind, around);
  if (typeof of !== 'string') return { misfit: of };
  const element = target === 'element' ? around.elements.find((e) => e?.name === of) : undefined;
  const counted =
    element?.count ?? (target === 'stop' ? around.elements.find(isStopOf(of))?.count : undefined);
  if (counted !== undefined && entry.count !== undefined) return { misfit: countedTwice };
  const fitted: Fitted = {
    count: counted ?? entry.count ?? 1,
    safety: entry.safety ?? safetyOf(kind, section),
    length: around.rods.find((r) => r.name === of)?.length ?? 0,
    element: element && figuresOf(element),
    turns: around.members.some((m) => m.name === of && m.unit === 'rad'),
  };
  const { checks, repeats, missing } = kind.judge(entry as never, fitted);
  if (missing !== undefined) return { misfit: missing };
  return {
    part: {
      kind: kind.kind,
      sort: kind.sort,
      target,
      of,
      index,
      count: fitted.count,
      checks,
      ...(repeats === undefined ? {} : { repeats }),
    },
  };
}

const countedTwice: Misfit = {
  field: 'count',
  message: 'is in the element already',
  hint: 'leave it out here',
};

function safetyOf(
  { safety }: StrengthKind,
  section: Pick<StrengthSection, 'safety' | 'springSafety'>,
): number {
  if (safety === 'none') return usualSafety.none;
  return safety === 'parts' ? section.safety : section.springSafety;
}

function unknownName(of: string, field: string, target: Target, known: readonly string[]): Misfit {
  const words = targetWords[target];
  const list = known.length === 0 ? `the vehicle has no ${words}` : `known: ${known.slice(0, 20).join(', ')}`;
  return {
    field,
    message: `the vehicle has no ${words} called '${of}'`,
    hint: didYouMean(of, known) ?? list,
    unknown: true,
  };
}

/** What an element of the document says of its spring or bar. */
function figuresOf(element: ElementEntry): ElementFigures {
  const { kind } = element;
  if (kind === 'torsion-bar') {
    const { bar, rate } = element;
    const twisted = bar && { modulus: torsionModulus(bar.section), thickness: thicknessOf(bar.section) };
    return { kind, rate: rate ?? (bar && barRate(bar)), bar: twisted };
  }
  if (kind === 'linear-spring')
    return { kind, rate: element.rate ?? (element.wire && coilRate(element.wire)), wire: element.wire };
  return kind === 'leaf-spring' ? { kind, leaves: element.leaves } : { kind };
}
