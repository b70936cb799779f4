import { useMemo } from 'react';
import type { PivotMap } from '../canvas/pivotMap.ts';
import { angleShown, forceShown, type Shown, travelShown } from '../charts/figures.ts';
import { aboutMeasure } from '../panels/measureUnit.ts';
import type { Mapped } from '../runs/mapping.ts';
import { useDesk, useMapped } from './workbench.ts';

/** How figures of a measure are shown on the map. */
function shownFor(unit: string, size: number, radius: number): Shown {
  if (unit === '1') return { unit: '%', factor: 100, decimals: 0 };
  if (unit === 'm') return travelShown(radius);
  if (unit === 'rad') return angleShown;
  if (unit === 'N') return forceShown(size);
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
  return useMemo(() => {
    if (mapped === undefined || drawn === undefined) return null;
    if (which === 'on the drawing' && mapped.plane.kind !== 'pivot') return null;
    return pictureOf(mapped, drawn, aboutMeasure(report, mapped.measure));
  }, [mapped, drawn, report, which]);
}

function pictureOf(
  { tile, best, measure, on, done }: Mapped,
  { scenario, mechanism }: NonNullable<Parameters<Parameters<typeof useDesk>[0]>[0]['drawn']>,
  about: ReturnType<typeof aboutMeasure>,
): PivotMap {
  const body = mechanism.bodies.findIndex(({ name }) => name === on);
  const value = best?.value ?? undefined;
  return {
    body: Math.max(0, body),
    tiles: tile === undefined ? [] : [tile],
    title: about.title,
    shown: shownFor(about.unit, value ?? 1, mechanism.size),
    scale: isLoadShare(measure) ? 'share' : 'plain',
    criteria: scenario.criteria.length > 0,
    ...(best === undefined || value === undefined ? {} : { best: { at: { x: best.x, z: best.z }, value } }),
    done,
  };
}
