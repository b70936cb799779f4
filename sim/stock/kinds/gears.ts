import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { type Choice, defineStock, type Place, type StockItem } from '../kind.ts';
import { entryWords, type Part, partAt } from '../place.ts';

const fields = z.strictObject({
  teeth: z.int().min(4).max(10_000).meta({ description: 'Number of teeth.', unit: '1' }),
  mesh: z
    .enum(['spur', 'bevel', 'belt', 'chain'])
    .default('spur')
    .meta({ description: 'What it meshes with: its like, or a belt or chain of its like.' }),
  module: quantity('length', 'Module: pitch diameter over teeth. Only equal ones mesh.', {
    above: 0,
    most: 1,
  }).optional(),
  rating: quantity('torque', 'Torque that ONE gear may carry on its own shaft.', {
    above: 0,
    most: 1e9,
  }).optional(),
});

type Gear = StockItem & z.output<typeof fields>;
type Stage = Extract<Part, { kind: 'reduction' | 'hub-reduction' }>;

function stageAt(place: Place): Stage | undefined {
  const part = partAt(place);
  return part?.kind === 'reduction' || part?.kind === 'hub-reduction' ? part : undefined;
}

/** A driving and a driven gear; what lies between in a train of spur wheels stays. */
function pairOf(a: Gear, b: Gear, stage: Stage, { path }: Place): Choice {
  const idlers = stage.teeth?.slice(1, -1) ?? [];
  const ratio = b.teeth / a.teeth;
  // The rating of the part counts at its output: that of the driving gear times the ratio, or that of the driven one.
  const ratings = [a.rating === undefined ? undefined : a.rating * ratio, b.rating].filter(
    (torque) => torque !== undefined,
  );
  const apart = a.module === undefined ? [] : [((a.teeth + b.teeth) * a.module) / 2];
  return {
    label: `${a.name} driving ${b.name}`,
    items: [a.name, b.name],
    puts: [
      { path: [...path, 'teeth'], value: [a.teeth, ...idlers, b.teeth] },
      { path: [...path, 'ratio'], value: undefined },
      { path: [...path, 'rating'], value: ratings.length === 0 ? undefined : Math.min(...ratings) },
    ],
    figures: { ratio },
    notes: [
      ...(idlers.length > 0 ? [] : apart.map((d) => `its shafts lie ${formatQuantity(d, 'length')} apart`)),
      ...(ratings.length === 0 ? ['what it may carry is not known'] : []),
      ...(ratings.length === 1 ? ['what one of the two may carry is not known'] : []),
    ],
  };
}

const meshes = (a: Gear, b: Gear): boolean =>
  a.mesh === b.mesh && (a.module === undefined || b.module === undefined || a.module === b.module);

/** The pair with one gear that is not in stock, beside one that is, that comes nearest to the ratio; fewest teeth first. */
function oneMore(ratio: number, items: readonly Gear[], stage: Stage): string[] {
  const beside = items.filter(({ count, mesh }) => count > 0 && mesh === stage.mesh);
  const offers = beside.flatMap((gear) => [
    { gear, teeth: Math.round(gear.teeth * ratio), drives: true },
    { gear, teeth: Math.round(gear.teeth / ratio), drives: false },
  ]);
  const offOf = ({ gear, teeth, drives }: (typeof offers)[number]): number =>
    Math.abs(Math.log((drives ? teeth / gear.teeth : gear.teeth / teeth) / ratio));
  const best = offers
    .filter(({ teeth }) => teeth >= 8 && teeth <= 120)
    .sort((a, b) => offOf(a) - offOf(b) || a.teeth - b.teeth)[0];
  if (best === undefined) return [];
  const { gear, teeth, drives } = best;
  const comes = drives ? teeth / gear.teeth : gear.teeth / teeth;
  return [
    `a gear of ${teeth} teeth ${drives ? 'driven by' : 'driving'} '${gear.name}' gives 1 : ${comes.toFixed(3)}`,
  ];
}

/** Gears, sprockets and pulleys: two of them make a stage. */
export const gears = defineStock({
  list: 'gears',
  one: 'pair of gears',
  title: 'Gears',
  fields,
  words: { 'number of teeth': ['teeth'], 'torque rating': ['rating'] },
  figures: [
    {
      key: 'ratio',
      says: 'reduction',
      dimension: 'ratio',
      at: ['ratio'],
      instead: [['teeth'], ['friction']],
    },
  ],
  refuses(place) {
    const stage = stageAt(place);
    if (stage === undefined) return `${entryWords(place)} is no reduction`;
    return stage.mesh === 'planetary' || stage.mesh === 'worm'
      ? `${entryWords(place)} is a ${stage.mesh} stage, which two gears from stock do not make`
      : undefined;
  },
  choices(items, place) {
    const stage = stageAt(place);
    if (stage === undefined) return [];
    const fitting = items.filter(({ mesh }) => mesh === stage.mesh);
    return fitting.flatMap((a) => fitting.filter((b) => meshes(a, b)).map((b) => pairOf(a, b, stage, place)));
  },
  make({ ratio }, items, place) {
    const stage = stageAt(place);
    return ratio === undefined || stage === undefined ? [] : oneMore(ratio, items, stage);
  },
  sample: { name: 'gear 24', count: 4, teeth: 24, module: '1 mm', rating: '0.6 N m' },
});
