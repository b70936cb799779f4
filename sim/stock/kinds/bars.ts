import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { section, torsionConstant } from '../../elements/section.ts';
import { barRate } from '../../elements/torsion-bar.ts';
import { materialField, materialOf } from '../../strength/material.ts';
import { type Choice, defineStock, type Place, type StockItem, type StockPut } from '../kind.ts';
import { type Element, elementAt, entryWords, strengthPuts } from '../place.ts';

const fields = z
  .strictObject({
    rate: quantity('torsionStiffness', 'Rate of ONE bar, where it was measured.', {
      least: 1e-9,
      most: 1e12,
    }).optional(),
    section: section.optional(),
    material: materialField.optional(),
    shearModulus: quantity('stress', 'Shear modulus; that of the material when left out.', {
      least: 1e3,
      most: 1e13,
    }).optional(),
    lengths: z
      .union([
        quantity('length', 'Length that twists, between the sockets.', { least: 1e-4, most: 100 }).transform(
          (one) => [one],
        ),
        z
          .array(quantity('length', 'Length that twists.', { least: 1e-4, most: 100 }))
          .min(1)
          .max(50),
      ])
      .optional()
      .meta({ description: 'Length that twists, or a list of lengths that the bar may be used at.' }),
  })
  .superRefine((bar, context) => {
    const told = (message: string, field: string) =>
      context.addIssue({ code: 'custom', message, path: [field] });
    if ((bar.rate === undefined) === (bar.section === undefined))
      told('needs its rate or its section, one of them', 'section');
    if (bar.section === undefined) return;
    if (bar.lengths === undefined) told('is missing: a bar by its section needs a length', 'lengths');
    if (bar.material === undefined && bar.shearModulus === undefined)
      told('is missing: a bar by its section needs a material or a shear modulus', 'material');
  });

type Bar = StockItem & z.output<typeof fields>;

const shearOf = ({ material, shearModulus }: Bar): number =>
  shearModulus ?? (material === undefined ? 0 : materialOf(material).shearModulus);

const barOf = (item: Bar, length: number) =>
  item.section === undefined ? undefined : { shearModulus: shearOf(item), length, section: item.section };

function choicesOf(item: Bar, element: Element, place: Place): Choice[] {
  const { path } = place;
  const strength = strengthPuts(place, 'bar', element.name, {
    figures: { material: item.material },
    gone: ['section'],
  });
  const measured: StockPut[] = [
    { path: [...path, 'rate'], value: item.rate, field: ['rate'] },
    { path: [...path, 'bar'], value: undefined },
  ];
  if (item.rate !== undefined)
    return [
      {
        label: item.name,
        items: [item.name],
        puts: [...measured, ...strength],
        figures: { rate: item.rate },
        notes: ['by its measured rate; without a section its stress is not known'],
      },
    ];
  const lengths = item.lengths ?? [];
  return lengths.flatMap((length) => {
    const bar = barOf(item, length);
    if (bar === undefined) return [];
    return [
      {
        label: lengths.length === 1 ? item.name : `${item.name}, ${formatQuantity(length, 'length')}`,
        items: [item.name],
        puts: [
          { path: [...path, 'rate'], value: undefined },
          { path: [...path, 'bar'], value: bar },
          ...strength,
        ],
        figures: { rate: barRate(bar), length },
        notes: [],
      },
    ];
  });
}

/** The length at which a bar of stock has the rate, L = G·K/c, nearest to its own lengths. */
function otherLength(wanted: number, items: readonly Bar[]): string[] {
  const cuts = items.flatMap((item) => {
    const own = item.lengths?.[0];
    if (item.section === undefined || own === undefined || item.count === 0) return [];
    const length = (shearOf(item) * torsionConstant(item.section)) / wanted;
    return [{ item, length, off: Math.abs(Math.log(length / own)) }];
  });
  const best = cuts.sort((a, b) => a.off - b.off)[0];
  if (best === undefined || best.off > Math.log(5)) return [];
  return [
    `'${best.item.name}' has that rate with ${formatQuantity(best.length, 'length')} between its sockets`,
  ];
}

/** Torsion bars. */
export const bars = defineStock({
  list: 'bars',
  one: 'torsion bar',
  title: 'Torsion bars',
  fields,
  words: {
    shape: ['section', 'shape'],
    section: ['section', 'shape'],
    diameter: ['section', 'diameter'],
    outside: ['section', 'outside'],
    'outside diameter': ['section', 'outside'],
    inside: ['section', 'inside'],
    'inside diameter': ['section', 'inside'],
    width: ['section', 'width'],
    height: ['section', 'height'],
    arm: ['section', 'arm'],
    'shear modulus': ['shearModulus'],
    length: ['lengths'],
    'torsional rate': ['rate'],
  },
  figures: [{ key: 'rate', says: 'rate', dimension: 'torsionStiffness', at: ['rate'], instead: [['bar']] }],
  refuses: (place) =>
    elementAt(place)?.kind === 'torsion-bar' ? undefined : `${entryWords(place)} is no torsion bar`,
  choices(items, place) {
    const element = elementAt(place);
    return element === undefined ? [] : items.flatMap((item) => choicesOf(item, element, place));
  },
  make: ({ rate }, items) => (rate === undefined ? [] : otherLength(rate, items)),
  sample: {
    name: 'steel rod 2.5 mm',
    count: 6,
    section: { shape: 'round', diameter: '2.5 mm' },
    material: 'spring-steel',
    lengths: ['80 mm', '96 mm'],
  },
});
