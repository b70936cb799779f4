import { useMemo } from 'react';
import { type Showing, shownScale } from '../../shared/units.ts';
import type { PivotMap } from '../canvas/pivotMap.ts';
import { angleShownIn, forceShown, type Shown, travelShown } from '../charts/figures.ts';
import { dimensionOf } from '../panels/figures.ts';
import { aboutMeasure } from '../panels/measureUnit.ts';
import type { Mapped } from '../runs/mapping.ts';
import { useDesk, useMapped, useShowing } from './workbench.ts';

/** How figures of a measure are shown on the map. */
function shownFor(unit: string, size: number, radius: number, showing: Showing): Shown {
  if (unit === '1') return { unit: '%', factor: 100, decimals: 0 };
  if (unit === 'm') return travelShown(radius, showing);
  if (unit === 'rad') return angleShownIn(showing);
  if (unit === 'N') return forceShown(size, showing);
  const dimension = dimensionOf(unit);
  if (dimension !== undefined) return { ...shownScale(dimension, size, showing), decimals: 2 };
  return { unit, factor: 1, decimals: 2 };
}

const isLoadShare = (measure: string): boolean => /loadshare$/i.test(measure);

/**
 * The map as pictures take it; null while there is none. `on the drawing`: only one whose sides are a place on the
 * drawing; `any`: also one over other figures.
 */
export function usePivotMap(which: 'on the drawing' | 'any' = 'on the drawing'): PivotMap | null {
  const mapped = useMapped();
  const drawn = useDesk((state) => state.drawn);
  const report = useDesk(({ solved }) => solved?.report);
  const showing = useShowing();
  return useMemo(() => {
    if (mapped === undefined || drawn === undefined) return null;
    if (which === 'on the drawing' && mapped.plane.kind !== 'pivot') return null;
    return pictureOf(mapped, drawn, aboutMeasure(report, mapped.measure), showing);
  }, [mapped, drawn, report, which, showing]);
}

function pictureOf(
  { tile, best, measure, on, done }: Mapped,
  { scenario, mechanism }: NonNullable<Parameters<Parameters<typeof useDesk>[0]>[0]['drawn']>,
  about: ReturnType<typeof aboutMeasure>,
  showing: Showing,
): PivotMap {
  const body = mechanism.bodies.findIndex(({ name }) => name === on);
  const value = best?.value ?? undefined;
  return {
    body: Math.max(0, body),
    tiles: tile === undefined ? [] : [tile],
    title: about.title,
    shown: shownFor(about.unit, value ?? 1, mechanism.size, showing),
    scale: isLoadShare(measure) ? 'share' : 'plain',
    criteria: scenario.criteria.length > 0,
    ...(best === undefined || value === undefined ? {} : { best: { at: { x: best.x, z: best.z }, value } }),
    done,
  };
}
