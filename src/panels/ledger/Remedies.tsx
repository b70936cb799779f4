import type { Alternative } from '../../../sim/ledger/alternatives.ts';
import { nameOf } from '../../../sim/ledger/ledger.ts';
import { usedWords } from '../../../sim/ledger/words.ts';
import { type Figures, useBench, useDocument, useFigures, useStudies } from '../../app/workbench.ts';
import { takeTried } from '../../edits/take.ts';
import { commit } from '../../store/document.ts';
import type { ToldRemedies } from '../../workers/study-protocol.ts';
import { JobStatus } from '../JobStatus.tsx';
import { unbroken } from '../words.ts';

const speedWords = (speed: number | undefined, { quantity }: Figures): string =>
  speed === undefined ? '–' : quantity(speed, 'speed');

/** What gives first then, or what is nearest to its limit. */
function thenWords({ holds, first }: Alternative): string {
  if (first?.use === undefined || first.use === null) return holds ? 'holds' : 'gives';
  return `${holds ? 'holds; nearest' : 'gives first'}: ${nameOf(first)} ${usedWords(first.use)}`;
}

interface RowProps {
  readonly alternative: Alternative;
  readonly fresh: boolean;
  readonly today: ToldRemedies;
}

function Row({ alternative, fresh, today }: RowProps) {
  const { documents } = useBench();
  const figures = useFigures();
  const { title, says, topSpeed, mass, holds, sets, scenario } = alternative;
  // A stronger pin has no figure of its own to be set.
  const canTake = sets.length > 0 || alternative.kind !== 'stronger-part';
  const same = (a: number | undefined, b: number | undefined) =>
    Math.abs((a ?? 0) - (b ?? 0)) <= 1e-3 * Math.abs(b ?? 0);
  return (
    <tbody className="remedy" data-holds={holds}>
      <tr>
        <th scope="row">{figures.say(title)}</th>
        <td>{same(topSpeed, today.topSpeed) ? 'as today' : speedWords(topSpeed, figures)}</td>
        <td>{same(mass, today.mass) ? 'as today' : figures.quantity(mass, 'mass')}</td>
      </tr>
      <tr>
        <td colSpan={3} className="words">
          <b className={holds ? undefined : 'over'}>{unbroken(thenWords(alternative))}</b>
        </td>
      </tr>
      <tr>
        <td colSpan={3} className="words">
          <span className="soft">{unbroken(figures.say(says))}</span>
          {canTake ? (
            <button
              type="button"
              className="button small"
              disabled={!fresh}
              aria-label={`Take it: ${title}`}
              title={
                fresh ? 'Put this change into the document, as one step' : 'The document has changed since'
              }
              onClick={() => {
                commit(documents, takeTried(documents.getState().raw, { title, sets, scenario }));
              }}
            >
              Take it
            </button>
          ) : null}
        </td>
      </tr>
    </tbody>
  );
}

/** What would help the part that gives first: changes side by side, each with what it costs and what gives first then. */
export function Remedies() {
  const { studies } = useBench();
  const figures = useFigures();
  const raw = useDocument((state) => state.raw);
  const { remedies: job } = useStudies();
  const isNew = job.kind === 'done' && job.of === raw;
  return (
    <section className="measure">
      <h3>What would help</h3>
      {job.kind === 'running' ? null : (
        <button type="button" className="button" onClick={() => studies.ledger('remedies', raw)}>
          {isNew ? 'Find again' : 'Find what would help'}
        </button>
      )}
      <JobStatus job={job} name="What would help" onCancel={() => studies.cancel('remedies')} />
      {job.kind === 'done' ? (
        <div data-stale={!isNew}>
          {job.result.first === undefined ? (
            <p>Nothing gives first, so nothing has to help.</p>
          ) : job.result.found.length === 0 ? (
            <p>
              {job.result.first.of} gives first; no change of the kinds that are tried applies to this
              vehicle.
            </p>
          ) : (
            <table className="figures remedies">
              <caption>
                {unbroken(job.result.first.of)} gives first. Each change by itself; today:{' '}
                {speedWords(job.result.topSpeed, figures)} on the level,{' '}
                {figures.quantity(job.result.mass, 'mass')}.
              </caption>
              <thead>
                <tr>
                  <th scope="col">change</th>
                  <th scope="col">top speed</th>
                  <th scope="col">mass</th>
                </tr>
              </thead>
              {job.result.found.map((alternative) => (
                <Row
                  key={`${alternative.kind} ${alternative.says}`}
                  alternative={alternative}
                  fresh={isNew}
                  today={job.result}
                />
              ))}
            </table>
          )}
        </div>
      ) : null}
    </section>
  );
}
