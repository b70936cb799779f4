import { lazy, type RefObject, Suspense, useMemo } from 'react';
import { useDesk, useDocument, useSettings } from '../app/workbench.ts';
import { stepOf } from '../canvas/handles/steps.ts';
import { SceneView } from '../canvas/SceneView.tsx';
import { handlesOf } from '../edits/handles.ts';
import { standingOn } from '../groundwork/standing.ts';
import { Reading } from '../reading/Reading.tsx';
import { previewOf } from '../runs/preview.ts';
import type { Look, Solved } from '../solved.ts';
import { UnderlayPicture } from '../underlay/UnderlayPicture.tsx';
import type { Ties } from './build.ts';
import type { Camera } from './camera.ts';
import { useGroundOn } from './ground.ts';
import { Overlay } from './Overlay.tsx';
import { pitchOf } from './pitch.ts';

/** What changes the ground by hand: loaded when it is first wanted. */
const GroundField = lazy(async () => ({
  default: (await import('../groundwork/GroundField.tsx')).GroundField,
}));

/** Step of the arrow keys where nothing is known of the vehicle's size yet, m. */
const STEP = 0.001;

/** Step of the arrow keys, m: the pitch as it is typed, or what suits a vehicle whose smallest wheel has this radius, m. */
export const stepFor = (pitch: string, size: number | undefined): number =>
  pitchOf(pitch) ?? (size === undefined ? STEP : stepOf(size));

/**
 * The vehicle as it is drawn, with the loads that its axle lines carry standing, as soon as those are known; while the
 * ground is changed, as it stands at its start.
 */
function useAsDrawn(onGround: boolean): Solved | null {
  const drawn = useDesk((state) => state.drawn);
  const found = useDesk(({ solved }) => solved?.recording);
  return useMemo(() => {
    if (drawn === undefined) return null;
    if (onGround) return standingOn(drawn, found);
    const loads = found?.standing.loads;
    return previewOf(drawn, loads?.length === drawn.mechanism.wheels.length ? loads : []);
  }, [drawn, found, onGround]);
}

const stay = (): void => undefined;

interface FieldProps {
  readonly camera: Camera;
  /** The element that all of it lies in. */
  readonly field: RefObject<HTMLElement | null>;
  /** How points move: without what hangs on them, and whether rods keep their length. */
  readonly ties: Ties;
  readonly look: Look;
}

/** The drawing with all that can be taken hold of: the one part of the builder that is drawn anew with every move. */
export function Field({ camera, field, ties, look }: FieldProps) {
  const raw = useDocument((state) => state.raw);
  const size = useDesk((state) => state.drawn?.mechanism.size);
  const typed = useSettings((state) => state.pitch);
  const pitch = pitchOf(typed);
  const onGround = useGroundOn();
  const handles = useMemo(() => (raw === null || onGround ? [] : handlesOf(raw)), [raw, onGround]);
  const step = stepFor(typed, size);
  const manner = useMemo(() => ({ pitch, step, ...ties }), [pitch, step, ties]);
  const solved = useAsDrawn(onGround);
  const run = useDesk((state) => (state.stale ? null : (state.solved ?? null)));
  camera.solved = solved;
  const { playhead, viewport, sight } = camera;
  return (
    <>
      <SceneView
        solved={solved}
        before={null}
        playhead={playhead}
        viewport={viewport}
        look={look}
        follow={false}
        onFollow={stay}
        sight={sight}
        closeUp
      />
      {onGround ? (
        <Suspense>
          <GroundField camera={camera} field={field} pitch={pitch} step={step} look={look} />
        </Suspense>
      ) : (
        <>
          <UnderlayPicture sight={sight} field={field} />
          <Overlay sight={sight} handles={handles} manner={manner} look={look} field={field} />
          <Reading solved={run} sight={sight} field={field} look={look} passing />
        </>
      )}
    </>
  );
}
