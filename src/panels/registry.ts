import { About } from './About.tsx';
import { Changes } from './Changes.tsx';
import { Events } from './Events.tsx';
import { Fields } from './Fields.tsx';
import { Measures } from './Measures.tsx';

/** The panels beside the picture, in the order of their tabs. A new one is its file and one line here. */
export const panels = [
  { id: 'fields', title: 'Figures', Panel: Fields },
  { id: 'changes', title: 'Changes', Panel: Changes },
  { id: 'events', title: 'Events', Panel: Events },
  { id: 'measures', title: 'Measures', Panel: Measures },
  { id: 'about', title: 'Notes', Panel: About },
] as const;
