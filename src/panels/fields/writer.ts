import { createContext, useContext } from 'react';
import type { Path } from '../../../shared/path.ts';
import { useBench } from '../../app/workbench.ts';
import type { Json } from '../../documents/json.ts';
import { edit } from '../../store/document.ts';

/** Puts a value into the document; leaves it out when it is undefined. `gesture` as in the document store. */
export type Write = (path: Path, value: Json | undefined, gesture?: string) => void;

const Writer = createContext<Write | undefined>(undefined);

/** Has the fields below write in another way than place by place: what hangs on a point goes along with it. */
export const WriterProvider = Writer.Provider;

/** How a field writes. */
export function useWriter(): Write {
  const { documents } = useBench();
  const given = useContext(Writer);
  return given ?? ((path, value, gesture) => edit(documents, path, value, gesture));
}
