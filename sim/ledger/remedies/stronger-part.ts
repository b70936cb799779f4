import type { LedgerLine, LedgerSort } from '../../../shared/report.ts';
import { keyOf } from '../ledger.ts';
import { figureWords, usedWords } from '../words.ts';
import { inLine, withParts } from './line.ts';
import { leastFactor, type Remedy } from './remedy.ts';

const parts: readonly LedgerSort[] = [
  'gear',
  'shaft',
  'joint',
  'differential',
  'clutch',
  'pin',
  'rod',
  'arm',
  'bar',
  'spring',
];

/** A stronger part in its place, with the same mass and stiffness: how strong it has to be, and what gives first then. */
export const strongerPart: Remedy = {
  kind: 'stronger-part',
  title: 'A stronger part',
  find(trouble) {
    const { first, scenario } = trouble;
    if (first.sort === 'motor') return strongerMotor(trouble);
    if (!parts.includes(first.sort) || first.use === null) return [];
    // the rating of a joint is that of a straight one; bent, it carries less
    const straight = inLine(trouble)?.part.rating?.torque;
    const sets =
      first.quantity === 'torque' && straight !== undefined
        ? [{ path: `${first.path}.rating`, value: Number((1.001 * straight * first.use).toPrecision(4)) }]
        : [];
    return [{ says: wanted(first), scenario, sets, mended: [keyOf(first)] }];
  },
};

function wanted(line: LedgerLine): string {
  const { of, carries, limit, unit, use, quantity } = line;
  return quantity === 'torque' || quantity === 'angle'
    ? `${of} for at least ${figureWords(carries, unit)} instead of ${figureWords(limit ?? 0, unit)}.`
    : `${of} at least ${usedWords(use ?? 0)} as strong (${quantity} ${figureWords(carries, unit)} of ${figureWords(limit ?? 0, unit)}).`;
}

/** A motor with the same speed and more torque, and more current with it. */
function strongerMotor(trouble: Parameters<Remedy['find']>[0]): ReturnType<Remedy['find']> {
  const here = inLine(trouble);
  const entry = here && trouble.scenario.vehicle.driveline?.parts[here.part.index];
  if (here === undefined || entry?.kind !== 'motor') return [];
  const { index } = here.part;
  const vehicle = (factor: number) =>
    withParts(trouble.scenario, (part, i) =>
      i !== index || part.kind !== 'motor'
        ? part
        : {
            ...part,
            stallTorque: factor * part.stallTorque,
            ...(part.stallCurrent === undefined ? {} : { stallCurrent: factor * part.stallCurrent }),
            ...(part.currentLimit === undefined ? {} : { currentLimit: factor * part.currentLimit }),
          },
    );
  const factor = leastFactor(trouble, vehicle);
  if (factor === undefined) return [];
  const path = `vehicle.driveline.parts[${index}]`;
  const was = [entry.stallTorque, factor * entry.stallTorque].map((torque) => figureWords(torque, 'N·m'));
  return [
    {
      says: `${here.part.name} with ${was[1]} at standstill instead of ${was[0]}, its current in proportion, its mass as it is.`,
      scenario: vehicle(factor),
      sets: [
        { path: `${path}.stallTorque`, value: factor * entry.stallTorque },
        ...(entry.stallCurrent === undefined
          ? []
          : [{ path: `${path}.stallCurrent`, value: factor * entry.stallCurrent }]),
        ...(entry.currentLimit === undefined
          ? []
          : [{ path: `${path}.currentLimit`, value: factor * entry.currentLimit }]),
      ],
    },
  ];
}
