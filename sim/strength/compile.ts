import { type Around, fitEntry, type StrengthSection } from './fit.ts';
import type { Strength } from './strength.ts';

/** Compiles the strength figures of a document. Entries that do not fit are left out: the reader has refused them. */
export function compileStrength(section: StrengthSection, around: Around): Strength {
  const parts = section.parts.flatMap((entry, index) => {
    const fitted = fitEntry(entry, index, section, around);
    return 'part' in fitted ? [fitted.part] : [];
  });
  return { parts };
}
