import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, type PartLaw } from '../part.ts';
import { type Fixed, meshEfficiency, planetary, wormEfficiency } from './mesh-loss.ts';

const teeth = z
  .int()
  .min(1)
  .max(10_000)
  .meta({ description: 'Number of teeth (or starts of a worm).', unit: '1' });

/**
 * Typical efficiencies of one mesh when nothing better is known, with those of driving it back.
 * Common practice, no source.
 */
export const typical = {
  spur: { driving: 0.95, backDriving: 0.95 },
  bevel: { driving: 0.93, backDriving: 0.93 },
  planetary: { driving: 0.9, backDriving: 0.9 },
  worm: { driving: 0.5, backDriving: 0 },
  belt: { driving: 0.95, backDriving: 0.95 },
  chain: { driving: 0.96, backDriving: 0.96 },
} as const;

const fields = z
  .strictObject({
    mesh: z
      .enum(['spur', 'bevel', 'worm', 'planetary', 'belt', 'chain'])
      .default('spur')
      .meta({ description: 'What meshes.' }),
    teeth: z.array(teeth).min(2).max(12).optional().meta({
      description: 'Teeth from the driving to the driven wheel; those between are idlers on the way.',
    }),
    sun: teeth.optional(),
    ring: teeth.optional(),
    fixed: z
      .enum(['ring', 'sun', 'carrier'])
      .default('ring')
      .meta({ description: 'Planetary: what stands still.' }),
    ratio: quantity('ratio', 'Speed in over speed out, where teeth are not given.', {
      above: 0,
      most: 1e5,
    }).optional(),
    efficiency: quantity('ratio', 'Share of the power that passes from the source to the wheels.', {
      above: 0,
      most: 1,
    }).optional(),
    backEfficiency: quantity('ratio', 'Share of the power that passes back; 0 when it locks itself.', {
      least: 0,
      most: 1,
    }).optional(),
    friction: quantity('ratio', 'Mean friction of its teeth: the efficiency is computed from it.', {
      least: 0,
      most: 1,
    }).optional(),
    leadAngle: quantity('angle', 'Worm: lead angle.', { above: 0, below: Math.PI / 2 }).optional(),
    pressureAngle: quantity('angle', 'Pressure angle of its teeth.', { least: 0.1, most: 0.8 }).default(
      Math.PI / 9,
    ),
    sense: z.enum(['same', 'opposite']).optional().meta({
      description:
        'Whether output and input turn the same way, where they are parallel. When left out: opposite for an even number of spur wheels, the same otherwise.',
    }),
  })
  .superRefine((p, context) => {
    const told = (message: string, field: keyof typeof p) =>
      context.addIssue({ code: 'custom', message, path: [field] });
    const [planets, given] = [p.sun !== undefined || p.ring !== undefined, p.teeth !== undefined];
    if (Number(given) + Number(p.ratio !== undefined) + Number(planets) !== 1)
      told('needs its teeth or its ratio, one of them', 'ratio');
    if (planets && (p.sun === undefined || p.ring === undefined || p.mesh !== 'planetary'))
      told(
        'a planetary stage, and only that, has both a sun and a ring',
        p.sun === undefined ? 'sun' : 'ring',
      );
    if (p.sun !== undefined && p.ring !== undefined && p.ring <= p.sun)
      told('must have more teeth than the sun', 'ring');
    if (p.teeth !== undefined && p.mesh === 'planetary')
      told('a planetary stage has `sun` and `ring`', 'teeth');
    if (p.teeth !== undefined && p.teeth.length > 2 && p.mesh !== 'spur')
      told('only spur wheels have idlers between', 'teeth');
    if (p.friction === undefined) return;
    if (p.efficiency !== undefined) told('is given beside the efficiency that follows from it', 'friction');
    if (p.mesh === 'worm' ? p.leadAngle === undefined : p.mesh !== 'spur' && p.mesh !== 'planetary')
      told(
        p.mesh === 'worm'
          ? 'needs the lead angle of the worm beside it'
          : `gives no efficiency of a ${p.mesh} stage; give the efficiency`,
        'friction',
      );
    if (p.mesh === 'spur' && p.teeth === undefined) told('needs the teeth beside it', 'friction');
    if (p.mesh === 'planetary' && !planets) told('needs sun and ring beside it', 'friction');
  })
  .meta({ eitherOf: [[{ teeth: [12, 36] }, { ratio: 3 }, { mesh: 'planetary', sun: 18, ring: 54 }]] });

type Figures = z.output<typeof fields>;

/** Ratio and sense as its teeth give them, and its efficiencies as computed, or as typical of such a stage. */
function worked(p: Figures): Pick<PartLaw, 'ratio' | 'driving' | 'backDriving' | 'sense'> {
  const { sun, ring, fixed, friction, pressureAngle } = p;
  if (sun !== undefined && ring !== undefined) return stage(sun, ring, fixed, friction, pressureAngle);
  const wheels: readonly number[] = p.teeth ?? [];
  const meshes = Math.max(1, wheels.length - 1);
  const usual = typical[p.mesh];
  const sense = p.mesh === 'spur' && wheels.length % 2 === 0 && wheels.length > 0 ? -1 : 1;
  const ratio = p.ratio ?? (wheels.at(-1) as number) / (wheels[0] as number);
  if (friction !== undefined && p.mesh === 'worm' && p.leadAngle !== undefined)
    return { ratio, sense, ...wormEfficiency(friction, p.leadAngle, pressureAngle) };
  if (friction !== undefined) {
    const passed = wheels
      .slice(1)
      .reduce((all, z2, i) => all * meshEfficiency(friction, wheels[i] as number, z2, pressureAngle), 1);
    return { ratio, sense, driving: passed, backDriving: passed };
  }
  return { ratio, sense, driving: usual.driving ** meshes, backDriving: usual.backDriving ** meshes };
}

function stage(sun: number, ring: number, fixed: Fixed, friction: number | undefined, angle: number) {
  const planet = (ring - sun) / 2;
  // two meshes, sun with planet and planet with ring
  const atRest =
    friction === undefined
      ? typical.planetary.driving
      : meshEfficiency(friction, sun, planet, angle) * meshEfficiency(friction, planet, ring, angle, true);
  const found = planetary(sun, ring, fixed, atRest);
  const usual = typical.planetary;
  return friction === undefined && fixed !== 'carrier'
    ? { ...found, driving: usual.driving, backDriving: usual.backDriving }
    : found;
}

/**
 * Efficiency back where only that of driving is given: the same, and for a worm 2 − 1/η, nothing at half or less.
 * Source: equal losses both ways on a screw, machine design texts.
 */
const back = (mesh: Figures['mesh'], efficiency: number): number =>
  mesh === 'worm' ? Math.max(0, 2 - 1 / efficiency) : efficiency;

/** A pair of gears, a train of them, a planetary stage, a worm, a belt or a chain. */
export const reduction = definePart({
  kind: 'reduction',
  title: 'Reduction',
  sort: 'gear',
  source:
    'power balance of a gear pair; Ohlendorf loss factor, Niemann & Winter; worm: Shigley (both from memory); typical efficiencies: common practice, no source',
  fields,
  law: (p) => {
    const found = worked(p);
    const assumed = p.efficiency === undefined && p.friction === undefined;
    return {
      ratio: found.ratio,
      driving: p.efficiency ?? found.driving,
      backDriving:
        p.backEfficiency ?? (p.efficiency === undefined ? found.backDriving : back(p.mesh, p.efficiency)),
      sense: p.sense === undefined ? found.sense : p.sense === 'same' ? 1 : -1,
      turnsCorner: p.mesh === 'bevel' || p.mesh === 'worm',
      assumed: assumed ? [`efficiency typical of a ${p.mesh} stage`] : [],
    };
  },
  sample: { mesh: 'spur', teeth: [12, 36] },
});
