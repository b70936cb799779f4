import { channels, type Recording } from '../../shared/recording.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/** Head of one column of a recording. */
export type Head = Recording['columns'][number];

/**
 * Unit of one column: that of its channel; where the channel's is one of two ('m or rad', 'N or N·m'), that of the
 * member or element itself, by whether it moves or turns.
 */
export function unitOf(
  mechanism: Pick<Mechanism, 'members' | 'elements' | 'joints'>,
  { channel, index }: Head,
): string {
  const { per, unit } = channels[channel];
  const [moves = unit, turns] = unit.split(' or ');
  if (turns === undefined) return unit;
  return turning(mechanism, per, index) ? turns : moves;
}

function turning(
  { members, elements, joints }: Pick<Mechanism, 'members' | 'elements' | 'joints'>,
  per: string,
  index: number,
): boolean {
  if (per === 'member') return members[index]?.unit === 'rad';
  const coordinate = elements[index]?.coordinate;
  return coordinate?.kind === 'joint' && joints[coordinate.joint]?.kind === 'hinge';
}
