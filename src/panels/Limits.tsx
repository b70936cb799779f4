import { formatQuantity } from '../../shared/units.ts';
import { useLook } from '../app/theme.ts';
import { useBench, useDocument, useStudies } from '../app/workbench.ts';
import { angleShown, lengthShown, type Shown } from '../charts/figures.ts';
import { LimitsPlot } from '../charts/LimitsPlot.tsx';
import type { ToldLimit, ToldLimits } from '../workers/study-protocol.ts';
import { JobStatus } from './JobStatus.tsx';
import './studies.css';

const sizeWords = (size: number, unit: ToldLimit['unit']): string =>
  unit === 'rad' ? formatQuantity(size, 'angle', 3, 'deg') : formatQuantity(size, 'length');

/** What stops it, as a sentence. */
function stopWords({ halt, most, size, unit }: ToldLimit): string {
  if (halt !== undefined) return size === 0 ? `not even the smallest: ${halt.says}` : halt.says;
  return `nothing, up to ${sizeWords(most, unit)}`;
}

function Row({ limit }: { readonly limit: ToldLimit }) {
  const { title, measures, size, unit, today, remarks } = limit;
  const isOver = today !== undefined && today > size;
  return (
    <tr>
      <th scope="row" title={measures}>
        {title}
      </th>
      <td>{sizeWords(size, unit)}</td>
      <td className={isOver ? 'over' : undefined}>{today === undefined ? '–' : sizeWords(today, unit)}</td>
      <td className="stops" title={remarks.join('; ')}>
        {stopWords(limit)}
      </td>
    </tr>
  );
}

function Table({ result }: { readonly result: ToldLimits }) {
  return (
    <table className="figures limits">
      <thead>
        <tr>
          <th scope="col">obstacle</th>
          <th scope="col">limit</th>
          <th scope="col" title="The largest on this scenario's own ground">
            here
          </th>
          <th scope="col" className="stops">
            what stops it
          </th>
        </tr>
      </thead>
      <tbody>
        {result.found.map((limit) => (
          <Row key={limit.kind} limit={limit} />
        ))}
      </tbody>
    </table>
  );
}

const gripShown = { unit: '', factor: 1, decimals: 1, title: 'grip' };
const massShown = (mass: number): Shown & { title: string } =>
  mass >= 1000
    ? { unit: 't', factor: 1e-3, decimals: mass >= 1e4 ? 0 : 1, title: 'mass' }
    : { unit: 'kg', factor: 1, decimals: mass >= 100 ? 0 : 1, title: 'mass' };

/** The limit of one obstacle over grip and over mass. */
function Plots({ limit, result }: { readonly limit: ToldLimit; readonly result: ToldLimits }) {
  const look = useLook();
  const { title, unit, overGrip, overMass, today, size } = limit;
  const shown = unit === 'rad' ? angleShown : lengthShown(size);
  const sides = [
    { along: gripShown, curve: overGrip, at: result.grip },
    { along: massShown(result.mass), curve: overMass, at: result.mass },
  ];
  return (
    <>
      {sides.map(({ along, curve, at }) =>
        curve === undefined ? null : (
          <LimitsPlot
            key={along.title}
            title={`${title} over ${along.title}`}
            size={shown}
            along={along}
            points={curve.map((point) => ({
              at: point.at,
              limit: point.size,
              ...(point.by === undefined ? {} : { by: point.by }),
            }))}
            today={{ at, ...(today === undefined ? {} : { size: today }) }}
            look={look}
          />
        ),
      )}
    </>
  );
}

/** How far the vehicle gets over each kind of obstacle, and what stops it there; found in a worker when it is asked for. */
export function Limits() {
  const { studies } = useBench();
  const raw = useDocument((state) => state.raw);
  const { limits, curves } = useStudies();
  const found = curves.kind === 'done' && curves.of === raw ? curves : limits;
  const isNew = found.kind === 'done' && found.of === raw;
  const isBusy = limits.kind === 'running';
  return (
    <div className="measures">
      <p className="soft">
        The largest obstacle of each kind that the vehicle crosses in balance with its own grip and torque,
        found by halving to 0.1 %.
      </p>
      {isNew || isBusy ? null : (
        <button type="button" className="button" onClick={() => studies.limits(raw)}>
          {found.kind === 'none' ? 'Find the limits' : 'Find again'}
        </button>
      )}
      <JobStatus job={limits} name="Limits" onCancel={() => studies.cancel('limits')} />
      {found.kind === 'done' ? (
        <div data-stale={!isNew}>
          {found.result.level === undefined ? null : (
            <p className="run-end">It does not even cross level ground: {found.result.level.says}.</p>
          )}
          <Table result={found.result} />
        </div>
      ) : null}
      {isNew && curves.kind !== 'running' && !(curves.kind === 'done' && curves.of === raw) ? (
        <button type="button" className="button" onClick={() => studies.curves(raw)}>
          Curves over grip and mass
        </button>
      ) : null}
      <JobStatus job={curves} name="Curves" onCancel={() => studies.cancel('curves')} />
      {curves.kind === 'done' && curves.of === raw
        ? curves.result.found.map((limit) => <Plots key={limit.kind} limit={limit} result={curves.result} />)
        : null}
    </div>
  );
}
