import type { Verdict } from '../../shared/report.ts';
import { showSentence } from '../../shared/units.ts';
import { jumpTo } from '../app/actions.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk, useShowing } from '../app/workbench.ts';
import { RunStatus } from './RunStatus.tsx';
import { endSentence, unbroken } from './words.ts';

/** The verdict of the run before on the same question, if it was asked there. */
function counterpart(before: readonly Verdict[] | undefined, verdict: Verdict): Verdict | undefined {
  return before?.find(({ kind, asks }) => kind === verdict.kind && asks === verdict.asks);
}

function VerdictRow({ verdict, was }: { readonly verdict: Verdict; readonly was: Verdict | undefined }) {
  const bench = useBench();
  const { pass, asks, shown, says, cause, moment } = verdict;
  const showing = useShowing();
  const say = (sentence: string) => unbroken(showSentence(sentence, showing));
  const word = pass ? 'holds' : 'fails';
  return (
    <li>
      <button
        type="button"
        className={`verdict ${word}`}
        disabled={moment === undefined}
        title={moment === undefined ? undefined : 'Go to this moment'}
        onClick={() => moment !== undefined && jumpTo(bench, moment)}
      >
        <span className="mark">
          <Icon name={word} />
        </span>
        <span className="asks">{say(asks)}</span>
        <b className="value">{showSentence(shown, showing)}</b>
        <span className="says">
          {say(says)} {cause === undefined ? null : <span className="cause">{say(cause)} </span>}
          {was === undefined || was.shown === shown ? null : (
            <span className="was">Before: {say(was.shown)}.</span>
          )}
        </span>
        <span className="unseen">{pass ? 'Holds.' : 'Fails.'}</span>
      </button>
    </li>
  );
}

/** What is asked, while the answer is being driven for. */
function PendingRow({ asks }: { readonly asks: string }) {
  return (
    <li className="verdict pending">
      <span className="mark">
        <Icon name="minus" />
      </span>
      <span className="asks">{asks}</span>
      <span className="value">–</span>
      <span className="says">not driven yet</span>
    </li>
  );
}

const NOTHING: readonly string[] = [];

/** '3 of 5 hold', or what stands in its place. */
function countWords(verdicts: readonly Verdict[] | undefined): string {
  if (verdicts === undefined) return '';
  if (verdicts.length === 0) return 'none asked for';
  const held = verdicts.filter(({ pass }) => pass).length;
  return held === verdicts.length
    ? held === 1
      ? 'holds'
      : `all ${held} hold`
    : `${held} of ${verdicts.length} hold`;
}

/** What the run must hold to, and whether it did: the answer, one sentence each. */
export function Verdicts() {
  const report = useDesk(({ solved }) => solved?.report);
  const before = useDesk((state) => state.before?.report.verdicts);
  const asks = useDesk((state) => state.drawn?.asks ?? NOTHING);
  const stale = useDesk((state) => state.stale);
  const failure = useDesk(({ phase }) => (phase.kind === 'failed' ? phase.message : undefined));
  const showing = useShowing();
  const ended = report?.end === undefined ? undefined : endSentence(report.end);
  const end = ended === undefined ? undefined : showSentence(ended, showing);
  return (
    <section className="verdicts" aria-labelledby="verdicts-title" data-stale={stale}>
      <div className="verdicts-head">
        <h2 id="verdicts-title">
          Verdicts <span className="count">{stale ? '' : countWords(report?.verdicts)}</span>
        </h2>
        <RunStatus />
      </div>
      {failure === undefined ? null : <p className="run-end">The engine failed: {failure}</p>}
      {end === undefined ? null : <p className="run-end">{end}</p>}
      {report?.verdicts.length === 0 ? (
        <p className="soft">This scenario asks for nothing: its file has no criteria.</p>
      ) : null}
      <ul>
        {report === undefined
          ? [...new Set(asks)].map((each) => <PendingRow key={each} asks={showSentence(each, showing)} />)
          : report.verdicts.map((verdict) => (
              <VerdictRow key={verdict.index} verdict={verdict} was={counterpart(before, verdict)} />
            ))}
      </ul>
    </section>
  );
}
