import { useState } from 'react';
import { formatQuantity, formatShare, type Showing, shownScale } from '../../../shared/units.ts';
import type { GreatestMass } from '../../../sim/ledger/mass.ts';
import { useLook } from '../../app/theme.ts';
import { useBench, useDesk, useDocument, useFigures, useStudies } from '../../app/workbench.ts';
import { angleShownIn, lengthShown, type Shown } from '../../charts/figures.ts';
import { LimitsPlot } from '../../charts/LimitsPlot.tsx';
import type { ToldMass } from '../../workers/study-protocol.ts';
import { JobStatus } from '../JobStatus.tsx';
import { Lines } from './Lines.tsx';

const kilograms = (mass: number): string => formatQuantity(mass, 'mass', 4);

/** The greatest mass as a sentence. */
export function massWords({ mass, today, more, setBy, most, least }: GreatestMass): string {
  const by = setBy === undefined ? '' : ` ${setBy.of} sets it: ${setBy.says}`;
  if (mass === null || more === null)
    return `No mass holds: down to ${kilograms(least)} something that depends on mass gives.${by}`;
  if (setBy === undefined)
    return `It may come out at ${kilograms(most)} and more: nothing with a known limit sets it up to there.`;
  const share = formatShare(Math.abs(mass / today - 1));
  const margin =
    more < 0
      ? `${share} lighter than today's ${kilograms(today)}`
      : `${share} above today's ${kilograms(today)}`;
  return `It may come out at ${kilograms(mass)}, ${margin}.${by}`;
}

const massShown = (mass: number, showing: Showing): Shown & { readonly title: string } => ({
  ...shownScale('mass', mass, showing),
  decimals: mass >= 100 ? 0 : 1,
  title: 'mass',
});

function Curve({ result: { greatest, curve } }: { readonly result: ToldMass }) {
  const look = useLook();
  const { title, unit, there, points } = curve;
  const size =
    unit === 'rad' ? angleShownIn(look.showing) : lengthShown(there ?? points[0]?.size ?? 0, look.showing);
  return (
    <LimitsPlot
      title={`largest ${title.toLowerCase()} over mass`}
      size={size}
      along={massShown(greatest.today, look.showing)}
      points={points.map(({ mass, size: limit, setBy }) => ({
        at: mass,
        limit,
        ...(setBy === undefined ? {} : { by: setBy.of }),
      }))}
      today={{ at: greatest.today, ...(there === undefined ? {} : { size: there }) }}
      look={look}
    />
  );
}

/** How heavy the vehicle may come out for its ground, what sets that, and the largest obstacle over mass. */
export function Mass() {
  const { studies } = useBench();
  const { say } = useFigures();
  const raw = useDocument((state) => state.raw);
  const items = useDesk(({ drawn }) => drawn?.scenario.vehicle.masses);
  const [where, setWhere] = useState('');
  const { mass: job } = useStudies();
  const isNew = job.kind === 'done' && job.of === raw;
  const at = items?.find((item) => item.name === where && item.on === 'chassis')?.at;
  return (
    <section className="measure">
      <h3>How heavy may it come out</h3>
      <label className="picker">
        <span>more mass</span>
        <select value={where} onChange={({ currentTarget }) => setWhere(currentTarget.value)}>
          <option value="">all over, as today's is spread</option>
          {(items ?? [])
            .filter(({ on }) => on === 'chassis')
            .map(({ name }) => (
              <option key={name} value={name}>
                where {name} is
              </option>
            ))}
        </select>
      </label>
      {job.kind === 'running' ? null : (
        <button type="button" className="button" onClick={() => studies.ledger('mass', raw, at)}>
          {isNew ? 'Find again' : 'Find the greatest mass'}
        </button>
      )}
      <JobStatus job={job} name="Greatest mass" onCancel={() => studies.cancel('mass')} />
      {job.kind === 'done' ? (
        <div data-stale={!isNew}>
          <p className={(job.result.greatest.more ?? -1) < 0 ? 'run-end flush' : undefined}>
            {say(massWords(job.result.greatest))}
          </p>
          {job.result.greatest.unhelped.length === 0 ? null : (
            <>
              <p className="soft">Past their limits at any mass:</p>
              <Lines lines={job.result.greatest.unhelped} />
            </>
          )}
          <Curve result={job.result} />
        </div>
      ) : null}
    </section>
  );
}
