import { type Dimension, dimensions } from './dimensions.ts';
import { formatNumber, formatQuantity, fromUnit, shownUnit, toUnit } from './format.ts';
import { rungsOf, type UnitSystem } from './systems.ts';

/** How figures are shown to a person: in which units, and whether a model's are scaled up to full size. */
export interface Showing {
  readonly system: UnitSystem;
  /** Full size over model, by which a model's figures are scaled; 1 for the document's own figures. */
  readonly scale: number;
}

/** The document's own figures, as builders speak. */
export const ownFigures: Showing = { system: 'builder', scale: 1 };

/**
 * By how much a figure of this dimension grows from a model to a likeness of it `scale` times as long, of the same
 * densities and under the same gravity: lengths × s, masses × s³, times × √s, so L^a·M^b·T^c × s^(a + 3b + c/2): forces
 * × s³, spring rates × s², stresses × s. Angles and shares stay. Electric and thermal figures do not follow from it and
 * stay as they are.
 * Source: Froude's rule of similitude (equal ratio of inertia to weight), as in any textbook of fluid mechanics, from memory.
 */
export function fullSizeFactor(dimension: Dimension, scale: number): number {
  const [length, mass, time, , current, temperature] = dimensions[dimension].powers;
  if (scale === 1 || current !== 0 || temperature !== 0) return 1;
  return scale ** (length + 3 * mass + time / 2);
}

/**
 * An SI figure for people, as they want figures shown: showQuantity(0.0254, 'length', { system: 'inch', scale: 1 }) is '1
 * in'. `digits` are significant ones; `size` is a figure whose unit it should share, for columns.
 */
export function showQuantity(
  value: number,
  dimension: Dimension,
  showing: Showing,
  digits = 3,
  size = value,
): string {
  const factor = fullSizeFactor(dimension, showing.scale);
  return formatQuantity(
    value * factor,
    dimension,
    digits,
    shownUnit(dimension, size * factor, showing.system),
  );
}

/** What one SI unit is as shown: 0.045 m × 1000 = 45 mm. With the unit that suits a figure of this size, SI. */
export function shownScale(
  dimension: Dimension,
  size: number,
  { system, scale }: Showing,
): { readonly unit: string; readonly factor: number } {
  const factor = fullSizeFactor(dimension, scale);
  const unit = shownUnit(dimension, size * factor, system);
  return { unit: unit === 'deg' ? '°' : unit, factor: factor * toUnit(1, unit) };
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** The dimension of each unit in which sentences are made. */
const written: ReadonlyMap<string, Dimension> = new Map(
  (Object.keys(dimensions) as Dimension[])
    .filter((dimension) => dimension !== 'ratio')
    .flatMap((dimension) =>
      rungsOf(dimension, 'builder').map(({ unit }): [string, Dimension] => [
        unit === 'deg' ? '°' : unit,
        dimension,
      ]),
    ),
);

/** A figure with its unit inside a sentence: '212 mm', '−3.1°'; not '6 mm' of 'M6 mm' nor '5 m' of '5 min'. */
const figures = new RegExp(
  `(?<![\\p{L}\\p{N}.])(−?\\d+(?:\\.\\d+)?(?:e−?\\d+)?)([ \\u00a0]?)(${[...written.keys()]
    .sort((a, b) => b.length - a.length)
    .map(escaped)
    .join('|')})(?![\\p{L}\\p{N}·/²³])`,
  'gu',
);

/** Significant digits of a number as it is written, at least three. */
const digitsOf = (number: string): number => Math.max(3, number.replace(/^−?0*\.?0*|e.*$|\./g, '').length);

/**
 * A sentence that was made with figures as builders speak, with its figures as they are wanted: 'It lost 12.9 N at 212
 * mm' becomes 'It lost 2.9 lbf at 8.35 in'. Everything else stays, and so does the whole sentence while the document's own
 * figures are wanted. A figure keeps as many digits as it has, three at least.
 */
export function showSentence(sentence: string, showing: Showing): string {
  if (showing.system === 'builder' && showing.scale === 1) return sentence;
  return sentence.replace(figures, (whole, number: string, space: string, unit: string) => {
    const dimension = written.get(unit);
    // '20 °' and '3mm' are not written here: an angle has no space, everything else has one.
    if (dimension === undefined || (unit === '°') !== (space === '')) return whole;
    const value = fromUnit(Number(number.replaceAll('−', '-')), unit);
    return showQuantity(value, dimension, showing, digitsOf(number)).replace(' ', space || ' ');
  });
}

/** Words for the switch and the mark: '1:14 model as full size'. */
export function scaleWords(scale: number): string {
  return scale >= 1 ? `1:${formatNumber(scale)}` : `${formatNumber(1 / scale)}:1`;
}
