import { useMemo } from 'react';
import { pivotsOf } from '../../sim/studies/pivots.ts';
import type { Handle } from '../canvas/handles/handle.ts';
import type { PivotMap } from '../canvas/pivotMap.ts';
import { angleShown, forceShown, type Shown, travelShown } from '../charts/figures.ts';
import type { Mapped } from '../runs/mapping.ts';
import type { DragState } from '../runs/pivotDrag.ts';
import type { Solved } from '../solved.ts';
import { useDesk, useDrag, useMapped } from './workbench.ts';

const NONE: readonly Handle[] = [];

/** The pins that may be dragged: those that are fixed to the chassis, in the modes that answer at once. */
export function useHandles(solved: Solved | null): readonly Handle[] {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const mode = useDesk((state) => state.mode);
  const { held, shown } = useDrag();
  return useMemo(() => {
    if (solved === null || scenario === undefined || mode === 'drive') return NONE;
    const bodies = solved.mechanism.bodies.map(({ name }) => name);
    return pivotsOf(scenario)
      .filter(({ on }) => on === 'chassis')
      .map(({ name, kind, on, at }) => ({
        id: name,
        label: kind === 'pivot' ? `${name}: pivot` : name,
        body: Math.max(0, bodies.indexOf(on)),
        at: name === held && shown !== undefined ? shown : at,
      }));
  }, [solved, scenario, mode, held, shown]);
}

/** Why the held pivot cannot be where it is held. */
export function problemOf({ held, why }: DragState) {
  return held === undefined || why === undefined ? null : { id: held, says: why };
}

/** How figures of a measure are shown on the map. */
function shownFor(unit: string, size: number, radius: number): Shown {
  if (unit === '1') return { unit: '%', factor: 100, decimals: 0 };
  if (unit === 'm') return travelShown(radius);
  if (unit === 'rad') return angleShown;
  if (unit === 'N') return forceShown(size);
  return { unit, factor: 1, decimals: 2 };
}

const isLoadShare = (measure: string): boolean => /loadshare$/i.test(measure);

/** The map as the picture takes it; null while there is none, or none that lies on the drawing. */
export function usePivotMap(): PivotMap | null {
  const mapped = useMapped();
  const drawn = useDesk((state) => state.drawn);
  const measures = useDesk(({ solved }) => solved?.report.measures);
  return useMemo(() => {
    if (mapped === undefined || drawn === undefined || mapped.plane.kind !== 'pivot') return null;
    return pictureOf(
      mapped,
      drawn,
      measures?.find(({ name }) => name === mapped.measure),
    );
  }, [mapped, drawn, measures]);
}

function pictureOf(
  { tile, best, measure, plane, done }: Mapped,
  { scenario, mechanism }: NonNullable<Parameters<Parameters<typeof useDesk>[0]>[0]['drawn']>,
  row: { readonly title: string; readonly unit: string } | undefined,
): PivotMap {
  const pivot = pivotsOf(scenario).find(({ name }) => name === plane.name);
  const body = mechanism.bodies.findIndex(({ name }) => name === pivot?.on);
  const value = best?.value ?? undefined;
  return {
    body: Math.max(0, body),
    tiles: tile === undefined ? [] : [tile],
    title: row?.title ?? measure,
    shown: shownFor(row?.unit ?? '1', value ?? 1, mechanism.size),
    scale: isLoadShare(measure) ? 'share' : 'plain',
    criteria: scenario.criteria.length > 0,
    ...(best === undefined || value === undefined ? {} : { best: { at: { x: best.x, z: best.z }, value } }),
    done,
  };
}
