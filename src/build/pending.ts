import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { Json } from '../documents/json.ts';
import { declined, type Edit } from '../edits/edit.ts';
export const addEntry = (document: Json, _list: Path, _kind: string | undefined, _at?: Vec2): Edit =>
  declined(document, 'add', '', 'cannot be added yet');
export type LayoutSize = Readonly<Record<string, number>>;
export const startingLayouts: readonly {
  id: string;
  title: string;
  says: string;
  make(size: LayoutSize): Json;
}[] = [];
