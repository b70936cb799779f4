import { createContext, useContext, useState } from 'react';
import { useDocument } from '../app/workbench.ts';
import type { Json } from '../documents/json.ts';
import { sameForm } from '../panels/fields/layout.ts';

/** The document, another one only when more than figures has changed: a drag must not draw every field anew. */
export function useForm(): Json {
  const raw = useDocument((state) => state.raw);
  const [kept, keep] = useState(raw);
  if (kept === raw || sameForm(kept, raw)) return kept;
  keep(raw);
  return raw;
}

const Form = createContext<Json>(null);

export const FormProvider = Form.Provider;

/** The document as to its form; its figures may be older than those of the store. */
export const useFormed = (): Json => useContext(Form);
