import { useEffect, useMemo } from 'react';
import { formatShare, type Showing, showQuantity } from '../../shared/units.ts';
import { type Plane, planesOf } from '../../sim/studies/planes.ts';
import { takePlace } from '../app/actions.ts';
import { useBench, useDesk, useDocument, useMapped, useNotice, useShowing } from '../app/workbench.ts';
import type { Mapped } from '../runs/mapping.ts';
import { mapWish } from '../runs/mapWish.ts';
import { figureWords } from './figures.ts';
import { MapField } from './MapField.tsx';
import { useChoice } from './measureChoice.tsx';
import { aboutMeasure } from './measureUnit.ts';

const titles = { pivot: 'place', arm: 'length and height', bar: 'thickness and preload' } as const;

/** Names a plane for people, and tells it from others of the same name. */
const titleOf = ({ name, kind }: Plane): string => `${name}: ${titles[kind]}`;

/** Everything that a map can be drawn over. */
function usePlanes(): readonly Plane[] {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  return useMemo(() => (scenario === undefined ? [] : planesOf(scenario)), [scenario]);
}

/** A value of one side of the map: 'x −363 mm' of a pivot, the value alone of anything else. */
function sideWords({ knob }: Plane['x'], value: number, showing: Showing): string {
  const axis = /pivot ([xz])$|rod end ([xz])$/.exec(knob.name);
  return `${axis === null ? '' : `${axis[1] ?? axis[2]} `}${showQuantity(value, knob.dimension, showing, 4)}`;
}

/** How far the map is, its best place, and the way to take that. */
function MapStatus({ mapped, unit }: { readonly mapped: Mapped; readonly unit: string }) {
  const bench = useBench();
  const showing = useShowing();
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
            Best: <b>{figureWords(best.value, unit, mapped.measure, showing)}</b> at{' '}
            {sideWords(plane.x, best.x, showing)}, {sideWords(plane.z, best.z, showing)}
            {best.holds ? ', where everything asked for holds' : ''}
          </span>
          <button
            type="button"
            className="button small"
            title="Puts the vehicle there, as one edit"
            onClick={() => void takePlace(bench, plane, best)}
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
  const wantedTitle = picked?.includes(': ') ? picked : picked && `${picked}: ${titles.pivot}`;
  const plane =
    planes.find((each) => titleOf(each) === wantedTitle) ??
    planes.find((each) => mapped !== undefined && titleOf(each) === titleOf(mapped.plane)) ??
    planes[0];
  if (plane === undefined || choice === undefined) return null;
  const { unit } = aboutMeasure(report, choice.text);
  const show = (wanted: Plane) => {
    const wish = scenario && mapWish(scenario, wanted, choice.text);
    if (wish !== undefined) mapping.ask({ document: raw, ...wish });
  };
  return (
    <section className="measure">
      <h3>Map of a pivot, an arm or a bar</h3>
      <label className="picker">
        <span>Over</span>
        <select
          value={titleOf(plane)}
          onChange={({ currentTarget }) => {
            notices.setState({ picked: currentTarget.value });
            const wanted = planes.find((each) => titleOf(each) === currentTarget.value);
            if (mapped !== undefined && wanted !== undefined) show(wanted);
          }}
        >
          {planes.map((each) => (
            <option key={titleOf(each)}>{titleOf(each)}</option>
          ))}
        </select>
      </label>
      <div className="group">
        {mapped !== undefined &&
        titleOf(mapped.plane) === titleOf(plane) &&
        mapped.failed === undefined ? null : (
          <button type="button" className="button" onClick={() => show(plane)}>
            {plane.kind === 'pivot' ? 'Show on the vehicle' : 'Show'}
          </button>
        )}
        {mapped === undefined ? null : (
          <button type="button" className="button" onClick={() => mapping.clear()}>
            Take away
          </button>
        )}
      </div>
      {mapped === undefined || mapped.plane.kind === 'pivot' || mapped.tile === undefined ? null : (
        <MapField mapped={mapped} />
      )}
      {mapped === undefined ? null : <MapStatus mapped={mapped} unit={unit} />}
    </section>
  );
}
