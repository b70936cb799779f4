import { clearanceOf } from '../frames/clearance.ts';
import { gaugeOf } from '../mechanism/gauge.ts';
import { type Kinematics, makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Balance } from '../statics/balance.ts';
import { poseOf } from '../statics/chain.ts';
import type { Choice } from './choice.ts';

/**
 * A figure that a balance has at one station, such as the load of a wheel. Smooth measures of a crossing are the least or
 * greatest value of one of them, over all stations and all wheels (or members).
 */
export interface Reading {
  /** Value at the balance as it was last evaluated, SI. */
  of(balance: Balance): number;
  /** Wheel whose standing load it is a share of. */
  readonly shareOf?: number;
  /** +1 when the measure is its greatest value, −1 when its least. */
  readonly sense: 1 | -1;
  /** Wheel or member that it is about. */
  readonly about?: string;
}

/** What the measure of a crossing reads; empty where it is no extreme of such figures. */
export function readingsOf({ about, of }: Choice, mechanism: Mechanism): readonly Reading[] {
  if (about.kind === 'criterion') return [];
  if (about.name === 'pitchUp') return [{ of: pitch, sense: 1 }];
  if (about.name === 'pitchDown') return [{ of: pitch, sense: -1 }];
  if (about.name === 'leastClearance')
    return mechanism.belly.points.length > 0 ? [{ of: clearance, sense: -1 }] : [];
  const named = (list: readonly { readonly name: string }[]) =>
    list.flatMap(({ name }, index) => (of === undefined || name === of ? [{ name, index }] : []));
  return [
    ...named(mechanism.wheels).flatMap((wheel) => wheelReading(about.name, wheel)),
    ...named(mechanism.members).flatMap((member) => memberReading(about.name, member, mechanism)),
  ];
}

interface Named {
  readonly name: string;
  readonly index: number;
}

function wheelReading(measure: string, { name: about, index }: Named): Reading[] {
  const wheel = (balance: Balance) => balance.wheels[index] as Balance['wheels'][number];
  const load = (balance: Balance) => wheel(balance).fz;
  const grip = (balance: Balance) =>
    Math.abs(wheel(balance).use) / (balance.mechanism.wheels[index] as Mechanism['wheels'][number]).tyre.grip;
  switch (measure) {
    case 'leastLoadShare':
    case 'wheelLeastLoadShare':
      return [{ about, of: load, sense: -1, shareOf: index }];
    case 'greatestLoadShare':
    case 'wheelGreatestLoadShare':
      return [{ about, of: load, sense: 1, shareOf: index }];
    case 'wheelLeastLoad':
      return [{ about, of: load, sense: -1 }];
    case 'greatestGripUse':
    case 'wheelGripUse':
      return [{ about, of: grip, sense: 1 }];
    case 'wheelTyreDepth':
      return [{ about, of: (balance) => wheel(balance).depth, sense: 1 }];
    default:
      return [];
  }
}

function memberReading(measure: string, { name: about, index }: Named, mechanism: Mechanism): Reading[] {
  const sign = { memberBump: 1, memberBumpUsed: 1, memberDroop: -1, memberDroopUsed: -1 }[measure];
  const side = sign === 1 ? 'bump' : 'droop';
  const member = mechanism.members[index];
  if (sign === undefined || member?.coordinate === undefined) return [];
  const travel = (balance: Balance) => sign * motion(balance, index);
  if (!measure.endsWith('Used')) return [{ about, of: travel, sense: 1 }];
  if (member[side] === undefined) return [];
  const available = (balance: Balance) => balance.mechanism.members[index]?.[side] ?? Number.NaN;
  return [{ about, of: (balance) => travel(balance) / available(balance), sense: 1 }];
}

const pitch = ({ chain, state }: Balance): number => state.angle[chain.last[0] as number] as number;

const clearance = (balance: Balance): number =>
  clearanceOf(balance.mechanism, placed(balance), balance.ground);

/** Travel coordinate of a member, m or rad. */
function motion(balance: Balance, member: number): number {
  const coordinate = balance.mechanism.members[member]?.coordinate;
  if (coordinate === undefined) return Number.NaN;
  const gauge = gaugeOf(coordinate, balance.mechanism);
  gauge.read(placed(balance));
  return gauge.x;
}

function placed({ mechanism, chain, state }: Balance): Kinematics {
  const k = makeKinematics(mechanism.bodies.length);
  mechanism.bodies.forEach((_, i) => {
    setPose(k, mechanism, i, poseOf(chain, state, i));
  });
  return k;
}
