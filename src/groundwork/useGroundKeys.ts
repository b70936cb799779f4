import { type RefObject, useEffect, useRef } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import type { Camera } from '../build/camera.ts';
import { reorderEntry } from '../edits/ground.ts';
import { removeEntry } from '../edits/remove.ts';
import type { GroundTool } from '../store/notice.ts';
import { samePath, select } from '../store/selection.ts';
import { groundKeys } from './keys.ts';
import { focusKnob, reveal, showWhole } from './looking.ts';
import type { LaidPiece } from './pieces.ts';
import { addPointAt, addPointBehind, neighbour, placeOf } from './places.ts';

interface KeyParts {
  readonly camera: Camera;
  readonly field: RefObject<HTMLElement | null>;
  /** Step of the arrow keys, m. */
  readonly step: number;
}

/** Everything by keys that is not at a handle. */
export function useGroundKeys(
  { camera, field, step }: KeyParts,
  pieces: readonly LaidPiece[],
  tool: GroundTool,
): void {
  const bench = useBench();
  const { apply, remove } = useBuild();
  const { selection, documents, notices } = bench;
  const go = (handle: ReturnType<typeof neighbour>): void => {
    if (handle === undefined) return;
    select(selection, handle.entry, handle.path);
    reveal(camera, handle.at.x);
    focusKnob(field.current, handle.id);
  };
  const wishes = {
    addPoint: () => {
      const { point, entry } = selection.getState();
      const here = placeOf(pieces, point);
      const last = pieces.findLast(
        ({ free, path }) => free && (entry === undefined || samePath(path, entry)),
      );
      const at = here ?? (last === undefined ? undefined : { piece: last, index: last.points.length - 1 });
      const { raw } = documents.getState();
      // A wheel's radius on: far enough to be told from this one.
      const far = Math.max(1, Math.round((camera.solved?.mechanism.size ?? 20 * step) / step)) * step;
      const end = pieces.at(-1)?.to ?? { x: 0, z: 0 };
      const edit =
        at === undefined
          ? addPointAt(raw, pieces, { x: end.x + far, z: end.z })
          : addPointBehind(raw, at, far);
      apply(edit);
      if (edit.select !== undefined) {
        const path = edit.select.length > 2 ? edit.select : [...edit.select, 'points', 1];
        select(selection, path.slice(0, 2), path);
        focusKnob(field.current, pathText(path));
      }
    },
    remove: () => {
      const { point, entry } = selection.getState();
      const here = placeOf(pieces, point);
      if (here === undefined || point === undefined) {
        if (entry?.[0] === 'ground' && typeof entry[1] === 'number') remove(entry);
        return;
      }
      const before = neighbour(pieces, point, entry, -1);
      apply(removeEntry(documents.getState().raw, point));
      if (before !== undefined && samePath(before.entry, entry)) go(before);
    },
    point: (by: 1 | -1) => {
      const { point, entry } = selection.getState();
      go(neighbour(pieces, point, entry, by));
    },
    place: (by: 1 | -1) => {
      const { entry } = selection.getState();
      const to = Number(entry?.[1]) + by;
      if (entry?.[0] === 'ground' && to >= 0 && to < pieces.length)
        apply(reorderEntry(documents.getState().raw, entry, to));
    },
    draw: () => notices.setState({ ground: { tool: 'draw' } }),
    whole: () => showWhole(camera, pieces),
    leave: () => {
      if (tool !== 'points') notices.setState({ ground: { tool: 'points' } });
      else select(selection, undefined);
    },
  };
  const latest = useRef(wishes);
  latest.current = wishes;
  useEffect(() => {
    const were = bench.moreKeys;
    const mine = groundKeys(
      {
        addPoint: () => latest.current.addPoint(),
        remove: () => latest.current.remove(),
        point: (by) => latest.current.point(by),
        place: (by) => latest.current.place(by),
        draw: () => latest.current.draw(),
        whole: () => latest.current.whole(),
        leave: () => latest.current.leave(),
      },
      were,
    );
    bench.moreKeys = mine;
    return () => {
      if (bench.moreKeys === mine) bench.moreKeys = were;
    };
  }, [bench]);
}
