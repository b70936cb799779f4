import { type Showing, shownScale, showQuantity, showSentence } from '../../shared/units.ts';
import { useLook } from '../app/theme.ts';
import { useBench, useDocument, useFigures, useShowing, useStudies } from '../app/workbench.ts';
import { angleShownIn, lengthShown, type Shown } from '../charts/figures.ts';
import { LimitsPlot } from '../charts/LimitsPlot.tsx';
import type { ToldLimit, ToldLimits } from '../workers/study-protocol.ts';
import { JobStatus } from './JobStatus.tsx';
import './studies.css';

const sizeWords = (size: number, unit: ToldLimit['unit'], showing: Showing): string =>
  showQuantity(size, unit === 'rad' ? 'angle' : 'length', showing);

/** What stops it, as a sentence. */
function stopWords({ halt, most, size, unit }: ToldLimit, showing: Showing): string {
  if (halt === undefined) return `nothing, up to ${sizeWords(most, unit, showing)}`;
  const says = showSentence(halt.says, showing);
  return size === 0 ? `not even the smallest: ${says}` : says;
}

function Row({ limit }: { readonly limit: ToldLimit }) {
  const showing = useShowing();
  const { title, measures, size, unit, today, remarks } = limit;
  const isOver = today !== undefined && today > size;
  return (
    <tr>
      <th scope="row" title={measures}>
        {title}
      </th>
      <td>{sizeWords(size, unit, showing)}</td>
      <td className={isOver ? 'over' : undefined}>
        {today === undefined ? '–' : sizeWords(today, unit, showing)}
      </td>
      <td className="stops" title={remarks.join('; ')}>
        {stopWords(limit, showing)}
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
const massShown = (mass: number, showing: Showing): Shown & { title: string } => ({
  ...shownScale('mass', mass, showing),
  decimals: mass >= 100 ? 0 : 1,
  title: 'mass',
});

/** The limit of one obstacle over grip and over mass. */
function Plots({ limit, result }: { readonly limit: ToldLimit; readonly result: ToldLimits }) {
  const look = useLook();
  const { title, unit, overGrip, overMass, today, size } = limit;
  const showing = useShowing();
  const shown = unit === 'rad' ? angleShownIn(showing) : lengthShown(size, showing);
  const sides = [
    { along: gripShown, curve: overGrip, at: result.grip },
    { along: massShown(result.mass, showing), curve: overMass, at: result.mass },
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
  const { say } = useFigures();
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
            <p className="run-end">It does not even cross level ground: {say(found.result.level.says)}.</p>
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
