import type { LedgerLine } from '../../shared/report.ts';
import { type Dimension, dimensions, formatQuantity, formatShare } from '../../shared/units.ts';

/** A figure in the unit that suits it, three digits. `unit`: SI, '1' for a share. */
export function figureWords(value: number, unit: string): string {
  if (unit === '1') return formatShare(value);
  const dimension = (Object.keys(dimensions) as Dimension[]).find((name) => dimensions[name].unit === unit);
  return dimension === undefined
    ? `${Number(value.toPrecision(3))} ${unit}`
    : formatQuantity(value, dimension);
}

/** '127 %', with as many digits as tell it from 100 %. */
export function usedWords(use: number): string {
  for (let digits = 3; digits < 8; digits++) {
    const words = formatShare(use, digits);
    if (use === 1 || words !== '100 %') return words;
  }
  return formatShare(use, 8);
}

/** How a limit is known: 'estimate, ± 30 %'; nothing for a given one. */
function knownWords({ how, spread }: Pick<LedgerLine, 'how' | 'spread'>): string[] {
  if (how === undefined || how === 'given') return [];
  const words = { measured: 'measured', estimate: 'estimate', typical: 'typical, test yours' }[how];
  return [spread !== undefined && spread > 0 ? `${words}, ± ${formatShare(spread, 2)}` : words];
}

/** 'front joint carries 1.9 N·m at station 710 mm and may carry 1.5 N·m (127 %)', as a sentence. */
export function carriesWords(
  of: string,
  carries: number,
  limit: number | undefined,
  unit: string,
  place: string,
  known: Pick<LedgerLine, 'how' | 'spread'> = {},
): string {
  const does = `${of} carries ${figureWords(carries, unit)} at ${place}`;
  if (limit === undefined) return `${does}; what it may carry is not known.`;
  const told = [...(limit > 0 ? [usedWords(carries / limit)] : []), ...knownWords(known)];
  return `${does} and may carry ${figureWords(limit, unit)}${told.length === 0 ? '' : ` (${told.join('; ')})`}.`;
}
