import { useMemo, useState } from 'react';
import { useDocument } from '../app/workbench.ts';
import { GroundReader, type LaidPiece } from './pieces.ts';

/** The open document's ground, piece by piece. */
export function usePieces(): readonly LaidPiece[] {
  const raw = useDocument((state) => state.raw);
  const [reader] = useState(() => new GroundReader());
  return useMemo(() => reader.read(raw), [reader, raw]);
}
