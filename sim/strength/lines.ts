import type { Recording } from '../../shared/recording.ts';
import type { LedgerLine, LedgerSort } from '../../shared/report.ts';

import { carryingJoints, memberLines } from '../joints/line.ts';
import type { BoundElement, Mechanism } from '../mechanism/mechanism.ts';
import type { LoadName, StrengthCheck, Target } from './kind.ts';
import {
  armLoads,
  hasForces,
  jointLoads,
  type Load,
  type Loads,
  rodLoads,
  springEffort,
  stopLoads,
  storedEnergy,
} from './loads.ts';
import { momentOf, peakOf, springSort } from './peak.ts';
import { repeatedUse } from './repeats.ts';
import type { StrengthPart } from './strength.ts';
import { checkWords, repeatWords, shown } from './words.ts';

/** A part of the vehicle that could give way, with what it carried. */
interface Item {
  readonly sort: LedgerSort;
  readonly target: Target;
  readonly of: string;
  /** What it is called in the line: 'pin of front-bogie'. */
  readonly title: string;
  readonly path: string;
  readonly loads: Loads;
  /** What an unknown part is told by. */
  readonly main: { readonly load: LoadName; readonly quantity: string; readonly unit: 'N' | 'N·m' };
  /** Equal ones, where the vehicle says it: springs and bars. */
  readonly count?: number;
  /** Signed effort of a spring or bar, its stored energy, all equal ones together, and the twist of a bar. */
  readonly effort?: Load;
  readonly energy?: Load;
  readonly twist?: Load;
}

const force = { load: 'force', quantity: 'force', unit: 'N' } as const;
const torque = { load: 'torque', quantity: 'torque', unit: 'N·m' } as const;
const bending = { load: 'bending', quantity: 'bending moment', unit: 'N·m' } as const;

/**
 * What is how near to its limit in the running gear: one line for every pin, guide, rod, arm, bar and spring of the
 * vehicle, at its worst over the run, and what stops with a limit of their own take. Parts without strength figures have
 * `use: null`; travel to the stops is not a question of strength.
 * Lines come in the vehicle's order. Limits have the safety factor in them that `says` names.
 */
export function strengthLines(mechanism: Mechanism, recording: Recording): LedgerLine[] {
  if (recording.frames === 0) return [];
  const parts = mechanism.strength?.parts ?? [];
  const told = hasForces(recording) ? itemsOf(mechanism, recording) : [];
  const lines = told.map((item) => {
    const part = parts.find(({ target, of }) => target === item.target && of === item.of);
    return part === undefined ? unknownLine(item, recording) : knownLine(item, part, recording);
  });
  return lines.filter((line) => line !== undefined);
}

/** All parts that could give way. Stops only count where they have figures: their travel has lines of its own. */
function itemsOf(mechanism: Mechanism, recording: Recording): Item[] {
  return [
    ...joints(mechanism, recording),
    ...rods(mechanism, recording),
    ...arms(mechanism, recording),
    ...springsOf(mechanism, recording),
    ...stops(mechanism, recording),
  ];
}

/** Place in the document of the member that a joint or rod belongs to; rods of an axle carry its name in front. */
function memberPath({ members }: Mechanism, name: string): string {
  const own = members.findIndex((m) => m.name === name);
  const index = own >= 0 ? own : members.findIndex((m) => name.startsWith(`${m.name} `));
  return `vehicle.members[${index}]`;
}

function joints(mechanism: Mechanism, recording: Recording): Item[] {
  return carryingJoints(mechanism).map(({ joint }, j) => {
    const target = joint.kind === 'slide' ? 'guide' : 'pin';
    const [of, path] = [joint.name, memberPath(mechanism, joint.name)];
    const loads = jointLoads(recording, j);
    return { sort: 'pin', target, of, title: `${target} of ${of}`, path, loads, main: force };
  });
}

function rods(mechanism: Mechanism, recording: Recording): Item[] {
  return mechanism.rods.flatMap(({ name: of }, r): Item[] => {
    const rod = { of, path: memberPath(mechanism, of), loads: rodLoads(recording, r), main: force };
    return [
      { ...rod, sort: 'rod', target: 'rod', title: `rod ${of}` },
      { ...rod, sort: 'pin', target: 'pin', title: `pins of ${of}` },
    ];
  });
}

function arms(mechanism: Mechanism, recording: Recording): Item[] {
  return memberLines(mechanism).map(({ name: of }, l) => {
    const loads = armLoads(recording, l);
    const path = memberPath(mechanism, of);
    return { sort: 'arm', target: 'arm', of, title: `arm or beam ${of}`, path, loads, main: bending };
  });
}

function springsOf(mechanism: Mechanism, recording: Recording): Item[] {
  return mechanism.elements.flatMap((element, i): Item[] => {
    const sort = springSort(element);
    if (sort === undefined) return [];
    const effort = springEffort(element, i, recording);
    const size: Load = (f) => Math.abs(effort(f));
    return [
      {
        sort,
        target: 'element',
        of: element.name,
        title: element.name,
        path: `vehicle.elements[${i}]`,
        loads: sort === 'bar' ? { torque: size } : { force: size },
        main: sort === 'bar' ? torque : force,
        count: element.count,
        effort,
        ...(sort === 'bar' ? { twist: twistOf(element, size) } : {}),
        energy: storedEnergy(element, i, recording),
      },
    ];
  });
}

/** Twist of ONE bar, rad: torque over rate. */
function twistOf({ law, count }: BoundElement, torque: Load): Load {
  const rate = count * law.stiffness(0, new Float64Array(0));
  return (f) => torque(f) / rate;
}

function stops(mechanism: Mechanism, recording: Recording): Item[] {
  return mechanism.members.flatMap(({ name: of, unit }, m): Item[] => {
    if (!mechanism.strength?.parts.some((part) => part.target === 'stop' && part.of === of)) return [];
    const loads = stopLoads(mechanism, m, recording);
    const main = unit === 'rad' ? torque : force;
    return [
      {
        sort: 'stop',
        target: 'stop',
        of,
        title: `stop of ${of}`,
        path: `vehicle.members[${m}]`,
        loads,
        main,
      },
    ];
  });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What a check counts, per frame: straight in the loads. */
function carried({ per }: StrengthCheck, loads: Loads): Load {
  const terms = Object.entries(per).flatMap(([name, figure]) => {
    const load = loads[name as LoadName];
    return load === undefined ? [] : [{ load, figure }];
  });
  return (f) => {
    let sum = 0;
    for (const { load, figure } of terms) sum += figure * load(f);
    return sum;
  };
}

function unknownLine(item: Item, recording: Recording): LedgerLine {
  const { load, quantity, unit } = item.main;
  const all = peakOf(recording.frames, item.loads[load] ?? (() => 0));
  const { frame } = all;
  const value = all.value / (item.count ?? 1);
  const whose = item.count === undefined ? 'in all' : 'in each';
  return {
    sort: item.sort,
    of: item.of,
    path: item.path,
    quantity,
    use: null,
    carries: value,
    limit: null,
    unit,
    says: `${capital(item.title)}: ${quantity} up to ${shown(value, unit)} ${whose}; what it may carry is not known, give its figures under strength`,
    ...(value > 0 ? { moment: momentOf(recording, frame) } : {}),
  };
}

function knownLine(item: Item, part: StrengthPart, recording: Recording): LedgerLine {
  const worst = part.checks
    .map((check) => ({ check, ...peakOf(recording.frames, carried(check, item.loads)) }))
    .reduce((a, b) => (b.value / b.check.limit > a.value / a.check.limit ? b : a));
  const { check, value, frame } = worst;
  return {
    sort: item.sort,
    of: item.of,
    path: `vehicle.strength.parts[${part.index}]`,
    quantity: check.quantity,
    use: value / check.limit,
    carries: value,
    limit: check.limit,
    unit: check.unit,
    how: check.material?.how ?? 'given',
    ...(check.material?.spread ? { spread: check.material.spread } : {}),
    says: [`${capital(item.title)}: ${checkWords(check, value)}`, ...more(item, part, recording)].join('; '),
    ...(value > 0 ? { moment: momentOf(recording, frame) } : {}),
    ...(value > (1 + rounding) * check.limit ? givesAt(item, part, recording) : {}),
  };
}

/** Use above 1 that is no more than rounding of a balance. */
const rounding = 1e-4;

/** Where any check of a part first goes over its limit. */
function givesAt({ loads }: Item, { checks }: StrengthPart, recording: Recording): Pick<LedgerLine, 'gives'> {
  const all = checks.map((check) => ({ limit: (1 + rounding) * check.limit, load: carried(check, loads) }));
  for (let f = 0; f < recording.frames; f++)
    if (all.some(({ limit, load }) => load(f) > limit)) return { gives: momentOf(recording, f) };
  return {};
}

/** What else a line says of a bar or spring: greatest twist or solid length, repeated loads, stored energy. */
function more(
  { effort, energy, twist }: Item,
  { repeats, count }: StrengthPart,
  recording: Recording,
): string[] {
  const { frames } = recording;
  const words: string[] = [];
  const turned = twist === undefined ? 0 : peakOf(frames, twist).value;
  if (turned > 0) words.push(`twisted up to ${shown(turned, 'rad')}`);
  if (effort !== undefined && repeats !== undefined) {
    let [least, most] = [effort(0), effort(0)];
    for (let f = 1; f < frames; f++) {
      least = Math.min(least, effort(f));
      most = Math.max(most, effort(f));
    }
    words.push(repeatWords(repeatedUse(repeats, least, most), repeats.rule));
  }
  const stored = energy === undefined ? 0 : peakOf(frames, energy).value;
  if (stored > 0) words.push(`stores up to ${shown(stored / count, 'J')}${count > 1 ? ' each' : ''}`);
  return words;
}
