import { type Showing, shownScale, showQuantity } from '../../shared/units.ts';
import { type Dial, figureOf } from '../../sim/tuning/dial.ts';
import type { Outcome } from '../../sim/tuning/sample.ts';
import type { Shown } from '../charts/figures.ts';
import { dimensionOf, figureWords } from '../panels/figures.ts';

/** An entry of a design for people: '77 mm', or the word of a choice. */
export const entryWords = (dial: Dial, entry: number, showing: Showing): string =>
  valueWords(dial, figureOf(dial, entry), showing);

/** Today's value of a number for people; undefined where it is none of its choices. */
export const todayWords = (dial: Dial, showing: Showing): string | undefined =>
  dial.now === null ? undefined : valueWords(dial, dial.now, showing);

function valueWords(dial: Dial, value: number, showing: Showing): string {
  if (dial.turns.kind === 'options') return dial.turns.options[value]?.label ?? '–';
  const dimension = dimensionOf(dial.unit);
  return dial.unit === '1' || dimension === undefined
    ? String(Number(value.toPrecision(4)))
    : showQuantity(value, dimension, showing, 4);
}

/** How figures of a goal are shown on an axis; `size`: a usual one, SI. */
export function shownOf(unit: string, size: number, showing: Showing): Shown {
  if (unit === '1') return { unit: '%', factor: 100, decimals: 0 };
  const dimension = dimensionOf(unit);
  return dimension === undefined
    ? { unit, factor: 1, decimals: 2 }
    : { ...shownScale(dimension, size, showing), decimals: 1 };
}

/** What a design came to, in a word or a sentence: that it holds, why it failed, or what it misses most. */
export function outcomeWords({ holds, why, short, goals }: Outcome, asks: readonly string[]): string {
  if (holds) return 'all holds';
  if (why !== undefined) return why;
  const worst = short.reduce((most, each, i) => (each > (short[most] ?? 0) ? i : most), 0);
  if ((short[worst] ?? 0) > 0) return `misses: ${asks[worst] ?? 'something asked for'}`;
  return goals.includes(null) ? 'no value' : 'does not hold';
}

export const goalWords = (value: number | null, unit: string, text: string, showing: Showing): string =>
  figureWords(value, unit, text, showing);

/** Time that is left, in words that do not jump about. */
export function leftWords(seconds: number): string {
  if (seconds < 10) return 'a few seconds left';
  if (seconds < 90) return `about ${10 * Math.ceil(seconds / 10)} s left`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 90 ? `about ${minutes} min left` : `about ${Math.ceil(minutes / 60)} h left`;
}
