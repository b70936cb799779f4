import { type ComponentType, createContext, useContext } from 'react';
import type { Path } from '../../shared/path.ts';
import { describeField, type FieldAbout } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { useBench } from '../app/workbench.ts';
import { type Json, valueAt } from '../documents/json.ts';

/** A place of the document that is filled in by hand. */
export interface PlaceProps {
  readonly path: Path;
  readonly label: string;
  /** What it belongs to, for screen readers: 'rear bogie'. */
  readonly part: string;
}

/** The value at a place as it is now: what a button does starts from that, not from what was drawn. */
export function useNow(): (path: Path) => Json | undefined {
  const { documents } = useBench();
  return (path) => valueAt(documents.getState().raw, path);
}

const Filled = createContext<ComponentType<PlaceProps>>(() => null);

/** Gives lists and groups the component that fills in a place: it holds lists and groups in turn. */
export const PlaceProvider = Filled.Provider;

export const usePlace = (): ComponentType<PlaceProps> => useContext(Filled);

/** What the schema says of a place. */
export const about = (document: Json, path: Path): FieldAbout | undefined =>
  describeField(scenarioDocument, document, path);
