import { readStock } from '../../../sim/stock/read.ts';
import type { Stock } from '../../../sim/stock/stock.ts';

const rod = (name: string, diameter: string) => ({
  name,
  count: 2,
  section: { shape: 'round', diameter },
  shearModulus: '79.3 GPa',
  lengths: '96 mm',
});

const read = readStock({
  format: 'axlewright-stock',
  version: 1,
  bars: [rod('two', '2 mm'), rod('two and a half', '2.5 mm')],
});
if (!read.ok) throw new Error(JSON.stringify(read.problems));

/** Two pairs of rods. */
export const drawer: Stock = read.value;
