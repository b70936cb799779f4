import { useEffect, useRef, useState } from 'react';
import { ownFigures, type Showing } from '../../shared/units.ts';
import { travelShown, withUnit } from '../charts/figures.ts';
import type { Playhead } from '../playhead.ts';
import type { Look, Solved } from '../solved.ts';
import type { Viewport } from '../viewport.ts';
import { Legend } from './Legend.tsx';
import { type Live, openLive } from './live.ts';
import type { PivotMap } from './pivotMap.ts';
import type { ForcesShown } from './scene.ts';
import type { Sight } from './sight.ts';
import './scene.css';

export interface SceneViewProps {
  readonly solved: Solved | null;
  /** The run before this one, for comparison. */
  readonly before: Solved | null;
  readonly playhead: Playhead;
  readonly viewport: Viewport;
  readonly look: Look;
  /** Whether the picture goes along with the vehicle. */
  readonly follow: boolean;
  /** The user has moved the picture by hand (false). */
  readonly onFollow: (follow: boolean) => void;
  /** Is told what the picture shows, for what lies over it. */
  readonly sight?: Sight;
  /** A map to draw on the vehicle. */
  readonly map?: PivotMap | null;
  /** Forces to show: those of the ground on the wheels, or those in pins, rods and arms as well. */
  readonly forces?: ForcesShown;
  /** At first the vehicle is shown as large as it fits, not the whole ground. */
  readonly closeUp?: boolean;
}

/** What a screen reader is told of the picture; figures over time are in the charts' captions and tables. */
function describe(
  solved: Solved | null,
  map: PivotMap | null,
  forces: ForcesShown,
  showing = ownFigures,
): string {
  if (solved === null) return 'Side view, empty until a run is ready';
  const { report, ground, mechanism } = solved;
  const pieces = ground.pieces.map((piece) => piece.title).join(', ');
  const vehicle = `Side view of ${report.vehicle}, ${mechanism.wheels.length} axle lines, on ${pieces}`;
  const joints = forces === 'joints' ? ', with the forces in its pins, rods and arms' : '';
  return `${vehicle}${joints}${map === null ? '' : `, with a map of ${mapInWords(map, showing)}`}`;
}

/** What a map shows and its best place; more is in the panel that asked for it. */
function mapInWords({ title, best, shown }: PivotMap, showing: Showing): string {
  const what = title.charAt(0).toLowerCase() + title.slice(1);
  if (best === undefined) return `${what} over the place of a pivot`;
  const { x, z } = best.at;
  const places = travelShown(0, showing);
  const at = `x ${withUnit(x, places)}, z ${withUnit(z, places)}`;
  return `${what} over the place of a pivot: best ${withUnit(best.value, shown).trim()} at ${at}`;
}

/**
 * Side view of the run at the playhead's frame. Playhead and viewport are followed without React; a change of run, theme
 * or follow reaches the picture by props.
 */
export function SceneView(props: SceneViewProps) {
  const { solved, before, playhead, viewport, look, follow, onFollow } = props;
  const { sight, map = null, forces = 'wheels', closeUp = false } = props;
  const host = useRef<HTMLDivElement>(null);
  const live = useRef<Live | null>(null);
  const [failed, setFailed] = useState('');
  const wishes = useRef(onFollow);
  wishes.current = onFollow;
  const latest = useRef({
    solved,
    before,
    theme: look.theme,
    showing: look.showing,
    follow,
    map,
    forces,
    closeUp,
  });
  latest.current = { solved, before, theme: look.theme, showing: look.showing, follow, map, forces, closeUp };

  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const opened = openLive(
      element,
      { playhead, viewport, sight },
      { moved: () => wishes.current(false), failed: (message) => setFailed(message) },
    );
    live.current = opened;
    opened.take(latest.current);
    return () => {
      live.current = null;
      opened.close();
    };
  }, [playhead, viewport, sight]);

  useEffect(() => {
    live.current?.take({
      solved,
      before,
      theme: look.theme,
      showing: look.showing,
      follow,
      map,
      forces,
      closeUp,
    });
  }, [solved, before, look, follow, map, forces, closeUp]);

  return (
    <div
      className="scene-view"
      ref={host}
      role="img"
      aria-label={describe(solved, map, forces, look.showing)}
    >
      <Legend theme={look.theme} before={before !== null} forces={forces} />
      {failed !== '' && <p className="scene-failed">{failed}</p>}
    </div>
  );
}
