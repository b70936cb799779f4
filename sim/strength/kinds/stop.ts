import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { defineStrength, type StrengthCheck } from '../kind.ts';

/** A stop with a limit of its own: what its rubber or bracket may take. */
export const stop = defineStrength({
  kind: 'stop',
  title: 'Stop',
  sort: 'stop',
  source: 'limits as the document gives them',
  target: 'stop',
  safety: 'none',
  fields: z.strictObject({
    member: nameOf('Member whose stops they are.'),
    force: quantity('force', 'Force that ONE stop of a member that moves in a line may take.', {
      above: 0,
      most: 1e9,
    }).optional(),
    torque: quantity('torque', 'Torque that ONE stop of a member that turns may take.', {
      above: 0,
      most: 1e9,
    }).optional(),
    energy: quantity('energy', 'Energy that ONE stop may take.', { above: 0, most: 1e9 }).optional(),
  }),
  judge: ({ force, torque, energy }, { count, safety, turns }) => {
    const at = (
      quantity: string,
      unit: 'N' | 'N·m' | 'J',
      load: 'force' | 'torque' | 'energy',
      limit?: number,
    ) =>
      limit === undefined
        ? []
        : [{ quantity, unit, per: { [load]: 1 / count }, limit: limit / safety, safety } as StrengthCheck];
    const wrong = turns ? force : torque;
    if (wrong !== undefined || (force ?? torque ?? energy) === undefined)
      return { checks: [], missing: fieldsOf(turns, wrong !== undefined) };
    return {
      checks: [
        ...at('force at the stop', 'N', 'force', force),
        ...at('torque at the stop', 'N·m', 'torque', torque),
        ...at('energy at the stop', 'J', 'energy', energy),
      ],
    };
  },
  sample: { member: 'rear-bogie', energy: '2 J' },
});

function fieldsOf(turns: boolean, wrong: boolean) {
  const [good, bad] = turns ? ['torque', 'force'] : ['force', 'torque'];
  return wrong
    ? {
        field: bad,
        message: `does not fit: this member ${turns ? 'turns' : 'moves in a line'}`,
        hint: `give \`${good}\``,
      }
    : { field: good, message: 'is missing', hint: `give \`${good}\` or \`energy\`` };
}
