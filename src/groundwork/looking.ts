import { type RefObject, useEffect, useRef } from 'react';
import { useBench, useDocument } from '../app/workbench.ts';
import type { Camera } from '../build/camera.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import { samePath } from '../store/selection.ts';
import type { LaidPiece } from './pieces.ts';

/** Room beside what is brought into sight, as a share of its length. */
const MARGIN = 0.12;
/** Share of the picture behind the place where ground is drawn on. */
const BEHIND = 0.35;
/** A press on the picture that moves less than this is one, px. */
const SLACK = 4;

/** Shows a stretch of the ground with room beside it. */
function show({ viewport }: Camera, from: number, to: number, least: number): void {
  const length = Math.max(to - from, least);
  const middle = (from + to) / 2;
  viewport.show({ from: middle - length * (0.5 + MARGIN), to: middle + length * (0.5 + MARGIN) });
}

/** The whole ground with the vehicle at its start: what is looked at first. */
export function showWhole(camera: Camera, pieces: readonly LaidPiece[]): void {
  const end = pieces.at(-1)?.to.x ?? 0;
  show(camera, 0, end, (camera.solved?.mechanism.size ?? 0.05) * 20);
}

/** Brings a place into sight if it is not. */
export function reveal({ viewport }: Camera, station: number): void {
  const { from, to } = viewport.window;
  if (station > from && station < to) return;
  const half = (to - from) / 2;
  viewport.show({ from: station - half, to: station + half });
}

/** Leaves room in front of a station, where ground is drawn on. */
export function makeRoom({ viewport }: Camera, station: number): void {
  const { from, to } = viewport.window;
  const length = to - from;
  viewport.show({ from: station - BEHIND * length, to: station + (1 - BEHIND) * length });
}

/** Puts the keyboard on a handle, once it is drawn; of several that are asked for in a row, on the last. */
export function focusKnob(field: HTMLElement | null, id: string): void {
  if (field === null) return;
  field.dataset.wanted = id;
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      if (field.dataset.wanted !== id) return;
      field.querySelector<HTMLElement>(`.knob[data-id="${CSS.escape(id)}"]`)?.focus({ preventScroll: true });
    }),
  );
}

/** Presses on the picture: one selects the piece that lies there, two add a point. */
export function usePresses(
  field: RefObject<HTMLElement | null>,
  onPress: (spot: Spot) => void,
  onDouble: (spot: Spot) => void,
): void {
  const latest = useRef({ onPress, onDouble });
  latest.current = { onPress, onDouble };
  useEffect(() => {
    const element = field.current;
    if (element === null) return undefined;
    const stop = new AbortController();
    const { signal } = stop;
    let pressed: Spot | undefined;
    const spotOf = ({ clientX, clientY }: MouseEvent): Spot => {
      const box = element.getBoundingClientRect();
      return { x: clientX - box.left, y: clientY - box.top };
    };
    const onPicture = ({ target }: Event): boolean =>
      target instanceof Element && target.closest('.scene-view') !== null;
    element.addEventListener(
      'pointerdown',
      (event) => {
        pressed = onPicture(event) && event.button === 0 ? spotOf(event) : undefined;
      },
      { signal },
    );
    element.addEventListener(
      'pointerup',
      (event) => {
        const spot = spotOf(event);
        if (pressed !== undefined && Math.hypot(spot.x - pressed.x, spot.y - pressed.y) <= SLACK)
          latest.current.onPress(spot);
        pressed = undefined;
      },
      { signal },
    );
    element.addEventListener(
      'dblclick',
      (event) => {
        if (onPicture(event)) latest.current.onDouble(spotOf(event));
      },
      { signal },
    );
    return () => stop.abort();
  }, [field]);
}

/** Shows the whole ground, or the selected piece, when the ground is taken up and when another document is opened. */
export function useFirstSight(camera: Camera, pieces: readonly LaidPiece[]): void {
  const opening = useDocument((state) => state.opening);
  const { selection } = useBench();
  const latest = useRef(pieces);
  latest.current = pieces;
  const ready = camera.solved !== null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: every opening, and the first good document after it.
  useEffect(() => {
    if (!ready) return undefined;
    // After the builder has shown the vehicle.
    const wait = setTimeout(() => {
      const { entry } = selection.getState();
      const piece = latest.current.find(({ path }) => samePath(path, entry));
      const least = (camera.solved?.mechanism.size ?? 0.05) * 20;
      if (piece === undefined || piece.to.x === piece.from.x) showWhole(camera, latest.current);
      else show(camera, piece.from.x, piece.to.x, least);
    }, 30);
    return () => clearTimeout(wait);
  }, [opening, ready, camera]);
  // The vehicle is looked at as before when the ground is left.
  useEffect(() => () => camera.fit(), [camera]);
}
