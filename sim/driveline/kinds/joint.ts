import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import type { Angled } from '../part.ts';

const angle = (says: string) => quantity('angle', says, { least: 0, most: Math.PI / 2 });

/** Fields of every joint that bends. */
export const jointFields = {
  shaft: nameOf('Shaft with two ends on one side of the joint; the one next to it when left out.').optional(),
  against: z
    .union([
      z.strictObject({ shaft: nameOf('Shaft on the other side.') }),
      z.strictObject({
        on: nameOf("Body whose own shaft is on the other side; the part's own when left out.").optional(),
        angle: quantity(
          'angle',
          "How that body's shaft lies in the drawing against the level, nose-up positive.",
          {
            least: -Math.PI,
            most: Math.PI,
          },
        ).default(0),
      }),
    ])
    .optional()
    .meta({
      description:
        "What the shaft's direction is compared with: another shaft, or a body that holds a shaft of its own. Its `on`, with a level shaft, when left out.",
    }),
  angle: angle('An angle that stays, for a joint whose shafts are not in the drawing.').optional(),
  mostAngle: angle('Angle that it can take.').optional(),
  ratingAtAngle: z
    .array(
      z.strictObject({
        angle: angle('Angle of the joint.'),
        share: quantity('ratio', 'Rating there over the rating straight.', { above: 0, most: 1 }),
      }),
    )
    .min(1)
    .max(20)
    .optional()
    .meta({ description: 'How the rating falls with the angle, by angle; the cosine when left out.' }),
};

/** Parsed figures of a joint. */
export interface JointFigures {
  readonly shaft?: string | undefined;
  readonly against?:
    | { readonly shaft: string }
    | { readonly on?: string | undefined; readonly angle: number }
    | undefined;
  readonly angle?: number | undefined;
  readonly mostAngle?: number | undefined;
  readonly ratingAtAngle?: readonly { readonly angle: number; readonly share: number }[] | undefined;
}

/** What a joint's angle follows from and does. */
export function angledOf(joint: Angled['joint'], p: JointFigures, phase: number): Angled {
  return {
    joint,
    phase,
    ...(p.shaft === undefined ? {} : { shaft: p.shaft }),
    ...(p.against === undefined ? {} : { against: p.against as NonNullable<Angled['against']> }),
    ...(p.angle === undefined ? {} : { fixed: p.angle }),
    ...(p.mostAngle === undefined ? {} : { mostAngle: p.mostAngle }),
    derate: p.ratingAtAngle === undefined ? cosine : tabled(p.ratingAtAngle),
  };
}

/**
 * Rating at an angle over the rating straight: the cosine. The cross carries T/cos β at its worst place in a turn.
 * Source: equilibrium of the massless cross, machine design texts.
 */
const cosine = (angle: number): number => Math.max(0, Math.cos(angle));

/** Straight lines between the rows of a table; 1 at no angle, and the last row beyond it. */
function tabled(rows: readonly { readonly angle: number; readonly share: number }[]) {
  const sorted = [{ angle: 0, share: 1 }, ...rows].sort((a, b) => a.angle - b.angle);
  return (angle: number): number => {
    for (let i = 1; i < sorted.length; i++) {
      const [a, b] = [sorted[i - 1] as (typeof rows)[number], sorted[i] as (typeof rows)[number]];
      if (angle <= b.angle)
        return b.angle > a.angle
          ? a.share + ((b.share - a.share) * (angle - a.angle)) / (b.angle - a.angle)
          : b.share;
    }
    return (sorted.at(-1) as (typeof rows)[number]).share;
  };
}
