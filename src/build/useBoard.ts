import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { Size } from '../canvas/camera.ts';
import type { Sight } from '../canvas/sight.ts';
import type { Handle } from '../edits/edit.ts';
import { type Board, boardOf, boardRound } from './board.ts';

/** Follows the picture: how the drawing lies on it, without React. */
export function useBoard(sight: Sight, handles: readonly Handle[], field: RefObject<HTMLElement | null>) {
  const board = useRef<Board | undefined>(undefined);
  const [watchers] = useState(() => new Set<(board: Board) => void>());
  const latest = useRef(handles);
  latest.current = handles;
  useEffect(() => {
    const tell = (): void => {
      const size: Size = { width: field.current?.clientWidth ?? 0, height: field.current?.clientHeight ?? 0 };
      const seen = sight.now;
      if (size.width === 0) return;
      board.current =
        seen === undefined
          ? boardRound(
              latest.current.map(({ at }) => at),
              size,
            )
          : boardOf(seen);
      for (const each of watchers) each(board.current);
    };
    tell();
    return sight.watch(tell);
  }, [sight, field, watchers]);
  const watch = useCallback(
    (each: (now: Board) => void) => {
      watchers.add(each);
      if (board.current !== undefined) each(board.current);
      return () => {
        watchers.delete(each);
      };
    },
    [watchers],
  );
  return { board, watch };
}
