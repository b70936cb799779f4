import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { useDesk } from '../app/workbench.ts';
import { ROOM } from '../canvas/camera.ts';
import { moveInWords } from '../canvas/handles/steps.ts';
import { angleShown, figure, travelShown, withUnit } from '../charts/figures.ts';
import type { Handle } from '../edits/edit.ts';
import type { Snapped } from '../edits/snap.ts';
import { type Board, spotOn } from './board.ts';

export interface BesideProps {
  readonly board: RefObject<Board | undefined>;
  /** Follows the picture. */
  readonly watch: (each: (board: Board) => void) => () => void;
}

/** Distance of what stands beside a handle from its middle, and the room that it may want, px. */
const AWAY = { side: 24, above: 14 } as const;
const ROOMY = { width: 290, height: 190 } as const;

/**
 * Keeps an element beside a drawn point, within the picture. It is held by the corner that lies nearest, so that it need
 * not be measured: asking for a size makes the page lay itself out, with every frame of a drag.
 */
export function useBeside({ board, watch }: BesideProps, at: Vec2) {
  const element = useRef<HTMLDivElement & HTMLFormElement>(null);
  const place = useRef<(now: Board) => void>(() => undefined);
  place.current = (now) => {
    if (element.current === null) return;
    const { width, height } = now.size;
    const spot = spotOn(now, at);
    const { style } = element.current;
    const left = spot.x + AWAY.side + ROOMY.width > width && spot.x > width / 2;
    const below = spot.y < ROOMY.height;
    const x = Math.min(width - 60, Math.max(60, spot.x)) + (left ? -AWAY.side : AWAY.side);
    const y = Math.min(height - ROOM.foot, Math.max(8, spot.y + (below ? AWAY.above : -AWAY.above)));
    style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(${left ? '-100%' : '0'}, ${below ? '0' : '-100%'})`;
  };
  useLayoutEffect(() => {
    if (board.current !== undefined) place.current(board.current);
  });
  useEffect(() => watch((now) => place.current(now)), [watch]);
  return element;
}

const CAUGHT = {
  grid: '',
  point: 'on another point',
  level: 'level with another point',
  upright: 'upright over another point',
} as const;

interface HandleNoteProps extends BesideProps {
  readonly handle: Handle;
  /** Where it was before it was taken in hand. */
  readonly from: Vec2 | undefined;
  readonly caught: Snapped | undefined;
  /** Why it cannot be there. */
  readonly why: string | undefined;
  /** Words for a screen reader. */
  readonly onSay: (words: string) => void;
}

/** Words beside a handle: what it is, where it is, how far it has moved, what it has caught on, why it cannot be there. */
export function HandleNote({ handle, from, caught, why, onSay, ...beside }: HandleNoteProps) {
  const size = useDesk((state) => state.drawn?.mechanism.size) ?? 0.05;
  const shown = travelShown(size);
  const element = useBeside(beside, handle.at);
  const { label, kind, at, value = 0 } = handle;
  const place =
    kind === 'angle' ? withUnit(value, angleShown) : `x ${withUnit(at.x, shown)}, z ${withUnit(at.z, shown)}`;
  const held = from !== undefined;
  const say = useRef(onSay);
  say.current = onSay;
  useEffect(() => {
    if (held) say.current(`${label}: ${place}${why === undefined ? '' : `. Broken: ${why}`}`);
  }, [held, label, place, why]);
  return (
    <div className="handle-note" ref={element} aria-hidden="true" data-broken={why !== undefined}>
      <p className="handle-name">{label}</p>
      {kind === 'angle' ? (
        <p className="handle-figure">{place}</p>
      ) : (
        <table>
          <tbody>
            {(['x', 'z'] as const).map((axis) => (
              <tr key={axis}>
                <th>{axis}</th>
                <td>
                  {figure(at[axis], shown)} {shown.unit}
                </td>
                <td className="handle-by">
                  {from === undefined ? '' : moveInWords(at[axis] - from[axis], shown)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {caught?.to === undefined || CAUGHT[caught.to] === '' ? null : (
        <p className="handle-caught">{CAUGHT[caught.to]}</p>
      )}
      {why === undefined ? null : (
        <p className="handle-problem">
          <strong>Broken as it is now.</strong> {why}
        </p>
      )}
    </div>
  );
}
