import { evaluateField } from '../../shared/units.ts';

/** Finest and coarsest pitch, m. */
const LEAST = 1e-5;
const MOST = 1;

/** A typed pitch, m: in millimetres where no unit is typed; undefined for none, or for what is none. */
export function pitchOf(text: string): number | undefined {
  if (text.trim() === '') return undefined;
  const read = evaluateField(text, 'length', 'mm');
  return read.ok && read.value > LEAST && read.value <= MOST ? read.value : undefined;
}
