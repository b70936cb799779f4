import { useEffect, useMemo } from 'react';
import { formatQuantity, formatShare } from '../../shared/units.ts';
import type { Plane } from '../../sim/studies/planes.ts';
import { takePlace } from '../app/actions.ts';
import { useBench, useDesk, useDocument, useMapped, useNotice } from '../app/workbench.ts';
import type { Mapped } from '../runs/mapping.ts';
import { mapPlanes, mapWish } from '../runs/mapWish.ts';
import { figureWords } from './figures.ts';
import { useChoice } from './measureChoice.tsx';
import { aboutMeasure } from './measureUnit.ts';

/** Pins of the chassis: maps of other planes do not lie on the drawing. */
function usePlanes(): readonly Plane[] {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  return useMemo(() => (scenario === undefined ? [] : mapPlanes(scenario)), [scenario]);
}

/** How far the map is, its best place, and the way to take that. */
function MapStatus({ mapped, unit }: { readonly mapped: Mapped; readonly unit: string }) {
  const bench = useBench();
  const { best, done, failed, plane } = mapped;
  if (failed !== undefined) return <p className="run-end">No map: {failed}</p>;
  return (
    <>
      <div className="job">
        <progress max={1} value={done} aria-label="Map" />
        <span className="soft">{done >= 1 ? 'whole' : formatShare(done, 2)}</span>
      </div>
      {best === undefined ? null : (
        <p className="best">
          <span>
            Best: <b>{figureWords(best.value, unit, mapped.measure)}</b> at x{' '}
            {formatQuantity(best.x, 'length', 4)}, z {formatQuantity(best.z, 'length', 4)}
            {best.holds ? ', where everything asked for holds' : ''}
          </span>
          <button
            type="button"
            className="button small"
            title="Puts the pivot there, as one edit"
            onClick={() => takePlace(bench, plane, best)}
          >
            Take it
          </button>
        </p>
      )}
    </>
  );
}

/** Chooses a pivot whose map is drawn on the vehicle. */
export function MapControls() {
  const { mapping, notices } = useBench();
  useEffect(() => mapping.warm(), [mapping]);
  const raw = useDocument((state) => state.raw);
  const planes = usePlanes();
  const choice = useChoice();
  const mapped = useMapped();
  const report = useDesk(({ solved }) => solved?.report);
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const picked = useNotice((state) => state.picked);
  const plane = planes.find(({ name }) => name === (picked ?? mapped?.plane.name)) ?? planes[0];
  if (plane === undefined || choice === undefined) return null;
  const { unit } = aboutMeasure(report, choice.text);
  const show = (wanted: Plane) => {
    const wish = scenario && mapWish(scenario, wanted.name, choice.text);
    if (wish !== undefined) mapping.ask({ document: raw, ...wish });
  };
  return (
    <section className="measure">
      <h3>Map over the place of a pivot</h3>
      <label className="picker">
        <span>Pivot</span>
        <select
          value={plane.name}
          onChange={({ currentTarget }) => {
            notices.setState({ picked: currentTarget.value });
            const wanted = planes.find((each) => each.name === currentTarget.value);
            if (mapped !== undefined && wanted !== undefined) show(wanted);
          }}
        >
          {planes.map((each) => (
            <option key={each.name}>{each.name}</option>
          ))}
        </select>
      </label>
      <div className="group">
        {mapped?.plane.name === plane.name && mapped.failed === undefined ? null : (
          <button type="button" className="button" onClick={() => show(plane)}>
            Show on the vehicle
          </button>
        )}
        {mapped === undefined ? null : (
          <button type="button" className="button" onClick={() => mapping.clear()}>
            Take away
          </button>
        )}
      </div>
      {mapped === undefined ? null : <MapStatus mapped={mapped} unit={unit} />}
    </section>
  );
}
