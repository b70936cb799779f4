import { type Channel, column, hasChannel, type Recording } from '../../shared/recording.ts';
import { type Showing, showQuantity } from '../../shared/units.ts';
import { unitOf } from '../../sim/frames/units.ts';
import { memberLines } from '../../sim/joints/line.ts';
import { dimensionOf, figureWords } from '../panels/figures.ts';
import type { Solved } from '../solved.ts';
import { lineOf } from './lines.ts';
import type { Thing } from './things.ts';

/** One figure of a thing at a moment. */
export interface Fact {
  readonly title: string;
  /** SI; null where there is none. */
  readonly value: number | null;
  /** SI unit; '1' for a share. */
  readonly unit: string;
  /** The recorded column that it comes from, as a line of the strips has it. */
  readonly line?: string;
  /** What stands in its place, where words say more: 'at its bump stop'. */
  readonly words?: string;
}

/** Reads a channel in a frame; null where the recording has no such column. */
function reader(recording: Recording, frame: number) {
  return (channel: Channel, index: number): number | null => {
    if (!hasChannel(recording, channel)) return null;
    const head = recording.columns.some((each) => each.channel === channel && each.index === index);
    return head ? (column(recording, channel, index)[frame] ?? null) : null;
  };
}

function wheelFacts(
  { mechanism, recording }: Solved,
  { index, name }: Thing,
  frame: number,
): readonly Fact[] {
  const read = reader(recording, frame);
  const standing = recording.standing.loads[index] ?? 0;
  const load = read('load', index);
  const gap = read('gap', index) ?? 0;
  const count = mechanism.wheels[index]?.count ?? 1;
  return [
    {
      title: count > 1 ? `load, all ${count} wheels` : 'load',
      value: load,
      unit: 'N',
      line: lineOf('load', name),
    },
    {
      title: 'of its standing load',
      value: load !== null && standing > 0 ? load / standing : null,
      unit: '1',
    },
    { title: 'standing load', value: standing, unit: 'N' },
    { title: 'travel', value: read('travel', index), unit: 'm', line: lineOf('travel', name) },
    { title: 'grip used', value: read('gripUse', index), unit: '1', line: lineOf('gripUse', name) },
    { title: 'drive torque', value: read('torque', index), unit: 'N·m', line: lineOf('torque', name) },
    { title: 'thrust', value: read('thrust', index), unit: 'N', line: lineOf('thrust', name) },
    gap > 0
      ? { title: 'off the ground by', value: gap, unit: 'm', line: lineOf('gap', name) }
      : { title: 'tyre pressed in', value: read('depth', index), unit: 'm', line: lineOf('depth', name) },
  ];
}

/** What is left to a stop, or that it is met. */
function stopFact(side: 'bump' | 'droop', left: number, unit: string): Fact {
  const title = `left to its ${side} stop`;
  return left > 0 ? { title, value: left, unit } : { title, value: -left, unit, words: 'met' };
}

function memberFacts(
  { mechanism, recording }: Solved,
  { index, name }: Thing,
  frame: number,
): readonly Fact[] {
  const read = reader(recording, frame);
  const member = mechanism.members[index];
  const facts: Fact[] = [];
  const motion = member?.coordinate === undefined ? null : read('motion', index);
  if (member !== undefined && motion !== null) {
    facts.push({ title: 'travel', value: motion, unit: member.unit, line: lineOf('motion', name) });
    if (member.bump !== undefined) facts.push(stopFact('bump', member.bump - motion, member.unit));
    if (member.droop !== undefined) facts.push(stopFact('droop', member.droop + motion, member.unit));
  }
  const line = memberLines(mechanism).findIndex((each) => each.name === name);
  if (line < 0) return facts;
  const force = (title: string, channel: Channel, unit: string): Fact => ({
    title,
    value: read(channel, line),
    unit,
    line: lineOf(channel, name),
  });
  return [
    ...facts,
    force('bending moment', 'bending', 'N·m'),
    force('shear force', 'shear', 'N'),
    force('axial force', 'axial', 'N'),
  ];
}

const noMemory = new Float64Array(0);

function elementFacts(
  { mechanism, recording }: Solved,
  { index, name }: Thing,
  frame: number,
): readonly Fact[] {
  const read = reader(recording, frame);
  const element = mechanism.elements[index];
  if (element === undefined) return [];
  const { law, count, bar } = element;
  const unit = (channel: Channel) => unitOf(mechanism, { channel, index, of: name });
  const turns = unit('elementTravel') === 'rad';
  const x = read('elementTravel', index);
  const effort = read('elementEffort', index);
  const facts: Fact[] = [
    {
      title: turns ? 'turned from as drawn' : 'pressed together from as drawn',
      value: x,
      unit: unit('elementTravel'),
      line: lineOf('elementTravel', name),
    },
    {
      title: `${turns ? 'torque' : 'force'}${count > 1 ? `, all ${count}` : ''}`,
      value: effort,
      unit: unit('elementEffort'),
      line: lineOf('elementEffort', name),
    },
  ];
  if (count > 1 && effort !== null)
    facts.push({ title: 'each', value: effort / count, unit: unit('elementEffort') });
  if (!turns || law.memory > 0 || x === null) return facts;
  // What the bar itself carries: its law without the damping beside it.
  const own = Math.abs(law.spring(x, noMemory));
  const stiffness = law.stiffness(x, noMemory);
  if (stiffness > 0) facts.push({ title: 'twist of one from free', value: own / stiffness, unit: 'rad' });
  if (bar !== undefined)
    facts.push({ title: 'shear stress at its surface', value: own / bar.modulus, unit: 'Pa' });
  return facts;
}

function rodFacts({ recording }: Solved, { index, name }: Thing, frame: number): readonly Fact[] {
  const tension = reader(recording, frame)('rodTension', index);
  const title = tension !== null && tension < 0 ? 'push' : 'pull';
  const value = tension === null ? null : Math.abs(tension);
  return [{ title, value, unit: 'N', line: lineOf('rodTension', name) }];
}

function pinFacts({ recording }: Solved, { index, name, sort }: Thing, frame: number): readonly Fact[] {
  const read = reader(recording, frame);
  const [x, z] = [read('pinX', index), read('pinZ', index)];
  const both = x === null || z === null ? null : Math.hypot(x, z);
  const facts: Fact[] = [
    { title: 'force', value: both, unit: 'N' },
    { title: 'of it forward', value: x, unit: 'N', line: lineOf('pinX', name) },
    { title: 'of it up', value: z, unit: 'N', line: lineOf('pinZ', name) },
  ];
  if (sort === 'guide')
    facts.push({
      title: 'moment',
      value: read('pinMoment', index),
      unit: 'N·m',
      line: lineOf('pinMoment', name),
    });
  return facts;
}

const kinds = {
  wheel: wheelFacts,
  member: memberFacts,
  rod: rodFacts,
  element: elementFacts,
  pin: pinFacts,
} as const;

/** The figures of a thing in a frame of a run. Those that the run does not have (forces that were not recorded) are left out. */
export function factsOf(solved: Solved, thing: Thing, frame: number): readonly Fact[] {
  const last = solved.recording.frames - 1;
  if (last < 0) return [];
  return kinds[thing.kind](solved, thing, Math.min(Math.max(0, frame), last)).filter(
    ({ value }) => value !== null && Number.isFinite(value),
  );
}

/** A fact's figure for people. */
export function factWords({ value, unit, words }: Fact, showing: Showing): string {
  if (value === null) return '–';
  const dimension = dimensionOf(unit);
  const figure =
    dimension === undefined || dimension === 'ratio'
      ? figureWords(value, unit, '')
      : showQuantity(value, dimension, showing);
  return words === undefined ? figure : `${words}${value === 0 ? '' : `, ${figure} past it`}`;
}

/** A thing with its figures as a sentence, to be read aloud. */
export function spoken(thing: Thing, facts: readonly Fact[], showing: Showing): string {
  const said = facts.map((fact) => `${fact.title} ${factWords(fact, showing)}`).join(', ');
  return `${thing.name}, ${thing.sort}${said === '' ? '' : `: ${said}`}.`;
}
