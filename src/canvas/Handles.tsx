import type { Look, Solved } from '../solved.ts';
import type { Handle, HandleProblem, HandleWishes } from './handles/handle.ts';
import type { Sight } from './sight.ts';

export interface HandlesProps extends HandleWishes {
  readonly solved: Solved | null;
  /** The same as the SceneView's below. */
  readonly sight: Sight;
  readonly handles: readonly Handle[];
  readonly problem?: HandleProblem | null;
  readonly look: Look;
}

/** Handles over the picture. Goes beside a SceneView, in the same positioned element. */
export function Handles(_props: HandlesProps) {
  return null;
}
