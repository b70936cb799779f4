import { formatShare, showQuantity, showSentence } from '../../shared/units.ts';
import { useDesk, useShowing } from '../app/workbench.ts';
import { figure, forceShown, travelShown } from '../charts/figures.ts';
import { ProblemList } from './Problems.tsx';
import { RunStatus } from './RunStatus.tsx';

/**
 * How the vehicle stands: what each axle line carries, how far it has moved from the drawing, and remarks.
 * @param status whether it says what the solver is doing: not where other answers beside it do
 */
export function Standing({ status = true }: { readonly status?: boolean }) {
  const report = useDesk(({ solved }) => solved?.report);
  const standing = useDesk(({ solved }) => solved?.recording.standing);
  const stale = useDesk((state) => state.stale);
  const failure = useDesk(({ phase }) => (phase.kind === 'failed' ? phase.message : undefined));
  const size = useDesk(({ drawn }) => drawn?.mechanism.size) ?? 1;
  const showing = useShowing();
  const weight = standing?.loads.reduce((sum, load) => sum + load, 0) ?? 0;
  const force = forceShown(weight / Math.max(1, standing?.loads.length ?? 1), showing);
  const plain = travelShown(size, showing);
  const travels = { ...plain, decimals: plain.decimals + 1 };
  return (
    <section className="verdicts standing" aria-labelledby="standing-title" data-stale={stale}>
      <div className="verdicts-head">
        <h2 id="standing-title">
          Standing{' '}
          {standing === undefined ? null : (
            <span className="count">pitch {showQuantity(standing.pitch, 'angle', showing, 2)}</span>
          )}
        </h2>
        {status ? <RunStatus /> : null}
      </div>
      {failure === undefined ? null : (
        <p className="run-end">It does not stand: {showSentence(failure, showing)}.</p>
      )}
      {report === undefined ? null : (
        <table className="figures">
          <thead>
            <tr>
              <th scope="col">axle line</th>
              <th scope="col">load, {force.unit}</th>
              <th scope="col">share</th>
              <th scope="col">travel, {travels.unit}</th>
            </tr>
          </thead>
          <tbody>
            {report.wheels.map(({ id, load, travel }) => (
              <tr key={id}>
                <th scope="row" title={id}>
                  {id}
                </th>
                <td>{figure(load, force)}</td>
                <td>{formatShare(weight > 0 ? load / weight : 0)}</td>
                <td>{figure(travel, travels)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {report === undefined || report.problems.length === 0 ? (
        <p className="soft">
          {failure === undefined && report !== undefined
            ? 'Nothing rests on a stop, every wheel carries.'
            : ''}
        </p>
      ) : (
        <ProblemList problems={report.problems} />
      )}
    </section>
  );
}
