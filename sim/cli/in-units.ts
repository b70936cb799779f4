import { InvalidArgumentError } from 'commander';
import { type Dimension, parseQuantity } from '../../shared/units.ts';

/** Limits of an option's value in SI. */
interface Limits {
  readonly least?: number;
  readonly most?: number;
  readonly above?: number;
}

/** Reads an option's value: a number in SI, or text with a unit; a value out of its limits is refused with `wanted`. */
export function inUnits(
  dimension: Dimension,
  { least = -Infinity, most = Infinity, above = -Infinity }: Limits = {},
  wanted = 'another value',
): (text: string) => number {
  return (text) => {
    const bare = Number(text);
    const read = parseQuantity(text.trim() !== '' && Number.isFinite(bare) ? bare : text, dimension);
    if (!read.ok) throw new InvalidArgumentError(`It ${read.message}.`);
    if (read.value < least || read.value > most || !(read.value > above))
      throw new InvalidArgumentError(`Wanted: ${wanted}.`);
    return read.value;
  };
}
