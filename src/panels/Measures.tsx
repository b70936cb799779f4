import type { Measure, WheelReport } from '../../shared/report.ts';
import { formatNumber, formatShare, shownScale, showQuantity } from '../../shared/units.ts';
import { jumpTo } from '../app/actions.ts';
import { useBench, useDesk, useShowing } from '../app/workbench.ts';
import { figureWords } from './figures.ts';

function Wheels({ wheels }: { readonly wheels: readonly WheelReport[] }) {
  const most = Math.max(...wheels.map(({ load, greatestLoad }) => greatestLoad ?? load));
  const { unit, factor } = shownScale('force', most, useShowing());
  const load = (value: number | undefined) => (value === undefined ? '–' : formatNumber(value * factor));
  return (
    <table className="figures">
      <caption>
        Loads of axle lines in {unit}, all wheels of a line together; share of time off the ground
      </caption>
      <thead>
        <tr>
          <th scope="col">axle line</th>
          <th scope="col">standing</th>
          <th scope="col">least</th>
          <th scope="col">most</th>
          <th scope="col">off</th>
        </tr>
      </thead>
      <tbody>
        {[...wheels]
          .sort((a, b) => a.axle - b.axle)
          .map((wheel) => (
            <tr key={wheel.id}>
              <th scope="row" title={`${wheel.id}: ${wheel.count} wheels`}>
                {wheel.id}
              </th>
              <td>{load(wheel.load)}</td>
              <td>{load(wheel.leastLoad)}</td>
              <td>{load(wheel.greatestLoad)}</td>
              <td>{wheel.timeOff === undefined ? '–' : formatShare(wheel.timeOff)}</td>
            </tr>
          ))}
      </tbody>
    </table>
  );
}

interface MeasureGroup {
  readonly title: string;
  readonly says: string;
  readonly source: string;
  readonly measures: readonly Measure[];
}

/** Measures of one name stand together: one line each for wheel, member or body. */
function grouped(measures: readonly Measure[]): readonly MeasureGroup[] {
  const names = [...new Set(measures.map(({ name }) => name))];
  return names.flatMap((name) => {
    const group = measures.filter((measure) => measure.name === name);
    const [first] = group;
    return first === undefined
      ? []
      : [{ title: first.title, says: first.says, source: first.source, measures: group }];
  });
}

function MeasureLine({ measure }: { readonly measure: Measure }) {
  const bench = useBench();
  const { moment, of } = measure;
  const showing = useShowing();
  const words = figureWords(measure.value, measure.unit, measure.name, showing);
  return (
    <div className="measure-line">
      <dt>{of ?? 'run'}</dt>
      <dd>
        {moment === undefined ? (
          <b>{words}</b>
        ) : (
          <button
            type="button"
            className="jump"
            title="Go to this moment"
            onClick={() => jumpTo(bench, moment)}
          >
            <b>{words}</b>
            <span className="soft"> at {showQuantity(moment.station, 'length', showing)}</span>
          </button>
        )}
      </dd>
    </div>
  );
}

/** All figures of the run with what they mean and where they come from. */
export function Measures() {
  const report = useDesk(({ solved }) => solved?.report);
  const showing = useShowing();
  if (report === undefined) return null;
  return (
    <div className="measures">
      <dl className="facts">
        <dt>mass</dt>
        <dd>{showQuantity(report.mass, 'mass', showing)}</dd>
        <dt>centre of gravity, as drawn</dt>
        <dd>
          x {showQuantity(report.cg.x, 'length', showing)}, z {showQuantity(report.cg.z, 'length', showing)}
        </dd>
        <dt>pitch inertia</dt>
        <dd>{showQuantity(report.pitchInertia, 'inertia', showing)}</dd>
      </dl>
      <Wheels wheels={report.wheels} />
      {grouped(report.measures).map(({ title, says, source, measures }) => (
        <section key={title} className="measure">
          <h3>{title}</h3>
          <p className="soft">
            {says} <span className="source">{source}</span>
          </p>
          <dl>
            {measures.map((measure) => (
              <MeasureLine key={`${measure.name} ${measure.of ?? ''}`} measure={measure} />
            ))}
          </dl>
        </section>
      ))}
    </div>
  );
}
