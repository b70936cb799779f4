import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { exactlyOne } from '../../elements/choices.ts';
import { coilRate } from '../../elements/linear-spring.ts';
import { type Choice, defineStock, known, type Place, type StockItem, type StockPut } from '../kind.ts';
import { type Element, elementAt, entryWords, strengthPuts } from '../place.ts';

const length = (says: string, most = 100) => quantity('length', says, { above: 0, most });

const fields = z
  .strictObject({
    rate: quantity('stiffness', 'Rate of ONE spring.', { least: 1e-6, most: 1e12 }).optional(),
    wire: z
      .strictObject({
        diameter: quantity('length', 'Diameter of the wire.', { least: 1e-5, most: 1 }),
        coilDiameter: quantity('length', 'Mean diameter of the coil.', { least: 1e-4, most: 10 }),
        activeCoils: quantity('ratio', 'Coils that can move.', { least: 0.1, most: 1000 }),
        shearModulus: quantity('stress', 'Shear modulus of the wire; spring steel about 80 GPa.', {
          least: 1e3,
          most: 1e13,
        }),
      })
      .optional()
      .meta({ description: 'Its wire, when its rate is not known.' }),
    freeLength: length('Length without load.').optional(),
    solidLength: length('Length at which its coils touch.').optional(),
  })
  .superRefine(exactlyOne('rate', 'wire'))
  .superRefine(({ freeLength, solidLength }, context) => {
    if (freeLength !== undefined && solidLength !== undefined && solidLength >= freeLength)
      context.addIssue({
        code: 'custom',
        message: 'must be shorter than `freeLength`',
        path: ['solidLength'],
      });
  });

type Spring = StockItem & z.output<typeof fields>;

const rateOf = ({ rate, wire }: Spring): number => rate ?? (wire === undefined ? 0 : coilRate(wire));

/** How long a spring between two points is in the drawing, m; undefined where the drawing does not tell. */
function drawnLength({ on }: Element): number | undefined {
  return 'from' in on ? Math.hypot(on.to.x - on.from.x, on.to.z - on.from.z) : undefined;
}

/** The travel at which a spring is free is that by which the place is longer than it: x₀ = drawn length − free length. */
function seatPuts(item: Spring, element: Element, { path }: Place): { puts: StockPut[]; notes: string[] } {
  const drawn = drawnLength(element);
  if (drawn === undefined)
    return {
      puts: [],
      notes: ['the drawing does not tell how long it is there: the preload stays as it is'],
    };
  if (item.freeLength === undefined)
    return { puts: [], notes: ['its free length is not known: the preload stays as it is'] };
  const free = drawn - item.freeLength;
  return {
    puts: [
      { path: [...path, 'preload'], value: undefined },
      { path: [...path, 'freeAt'], value: free },
    ],
    notes: free > 0 ? [`it is loose in the drawn position by ${formatQuantity(free, 'length')}`] : [],
  };
}

function choiceOf(item: Spring, element: Element, place: Place): Choice[] {
  const drawn = drawnLength(element);
  // It would be solid, or too long to go in, before the vehicle stands on it.
  if (drawn !== undefined && item.solidLength !== undefined && item.solidLength >= drawn) return [];
  const { path } = place;
  const seat = seatPuts(item, element, place);
  const rate: StockPut[] = [
    { path: [...path, 'rate'], value: item.rate, field: ['rate'] },
    { path: [...path, 'wire'], value: item.wire, field: ['wire'] },
  ];
  const solid = { freeLength: item.freeLength, solidLength: item.solidLength };
  const both = item.freeLength !== undefined && item.solidLength !== undefined;
  // The wire that the stress was reckoned with was that of the spring before it.
  const strength = strengthPuts(place, 'coil', element.name, {
    figures: both ? solid : {},
    gone: ['wire', 'freeLength', 'solidLength'],
  });
  const way =
    item.solidLength !== undefined && drawn !== undefined && strength.length === 0
      ? [`it is solid at ${formatQuantity(drawn - item.solidLength, 'length')} of bump travel`]
      : [];
  return [
    {
      label: item.name,
      items: [item.name],
      puts: [...rate, ...seat.puts, ...strength],
      figures: known({ rate: rateOf(item), freeLength: item.freeLength }),
      notes: [...seat.notes, ...way],
    },
  ];
}

/** Springs that a shorter coil makes as hard as wanted: rate and active coils are inverse to each other (EN 13906-1). */
function cutDown(wanted: number, items: readonly Spring[]): string[] {
  const softer = items.filter((item) => item.wire !== undefined && rateOf(item) < wanted && item.count > 0);
  const best = softer.sort((a, b) => rateOf(b) - rateOf(a))[0];
  if (best?.wire === undefined) return [];
  const coils = (best.wire.activeCoils * rateOf(best)) / wanted;
  if (coils < 1) return [];
  return [
    `'${best.name}' cut from ${best.wire.activeCoils} to ${coils.toFixed(1)} active coils has that rate, and is shorter by them; wear eye protection, cut ends fly`,
  ];
}

/** Coil springs. */
export const springs = defineStock({
  list: 'springs',
  one: 'spring',
  title: 'Springs',
  fields,
  words: {
    'free length': ['freeLength'],
    'solid length': ['solidLength'],
    'block length': ['solidLength'],
    'wire diameter': ['wire', 'diameter'],
    'coil diameter': ['wire', 'coilDiameter'],
    'active coils': ['wire', 'activeCoils'],
    'shear modulus': ['wire', 'shearModulus'],
    'spring rate': ['rate'],
    stiffness: ['rate'],
  },
  figures: [{ key: 'rate', says: 'rate', dimension: 'stiffness', at: ['rate'], instead: [['wire']] }],
  refuses: (place) =>
    elementAt(place)?.kind === 'linear-spring'
      ? undefined
      : `${entryWords(place)} is no linear spring, which is what a spring from stock takes the place of`,
  choices(items, place) {
    const element = elementAt(place);
    return element === undefined ? [] : items.flatMap((item) => choiceOf(item, element, place));
  },
  make: ({ rate }, items) => (rate === undefined ? [] : cutDown(rate, items)),
  sample: { name: 'blue, long', count: 4, rate: '1.2 N/mm ± 5 %', freeLength: '62 mm', solidLength: '31 mm' },
});
