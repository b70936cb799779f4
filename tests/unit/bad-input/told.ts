/** What reading says of spoilt documents, one line a problem: for the tests beside this file. */
import { problemLine } from '../../../shared/problem.ts';
import { readScenario } from '../../../sim/scenario/read.ts';
import { type Loose, smallTruck } from '../small-truck.ts';

const noFiles = { file: () => undefined };

/** What reading says: errors and warnings, one line each; 'reads' when it lets the document through. */
export function told(input: unknown): string[] {
  const read = readScenario(input, noFiles);
  return [...(read.ok ? ['reads'] : []), ...read.problems.map((p) => `${p.severity}: ${problemLine(p)}`)];
}

/** What reading says of the small truck with one thing spoilt. */
export function spoilt(spoil: (truck: Loose) => void): string[] {
  const truck = smallTruck();
  spoil(truck);
  return told(truck);
}

/** A rod between two points, each on a body. */
export const rod = (name: string, from: Loose, to: Loose) => ({ name, kind: 'rod', from, to });
