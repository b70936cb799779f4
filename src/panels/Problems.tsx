import type { Problem } from '../../shared/problem.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk, useNotice } from '../app/workbench.ts';

/** Longest list that is laid out at once: a file of nonsense can have thousands of problems. */
const MOST_ROWS = 100;

const count = (n: number): string => (n === 1 ? '1 problem' : `${n} problems`);

/** Problems with path, what is wrong, and what to do. */
export function ProblemList({ problems }: { readonly problems: readonly Problem[] }) {
  return (
    <ul className="problems">
      {problems.slice(0, MOST_ROWS).map(({ path, message, hint, severity }) => (
        <li key={`${path} ${message}`} className={severity}>
          {path === '' ? null : <code>{path}</code>}
          <span>{message}</span>
          {hint === undefined ? null : <span className="hint">{hint}</span>}
        </li>
      ))}
      {problems.length > MOST_ROWS ? <li>… and {problems.length - MOST_ROWS} more.</li> : null}
    </ul>
  );
}

/** A file that was not opened, with everything that is wrong with it. The open document is untouched. */
export function RefusedFile() {
  const { notices } = useBench();
  const refused = useNotice((state) => state.refused);
  if (refused === undefined) return null;
  return (
    <section className="refused" role="alert" aria-label="File not opened">
      <h2>
        <Icon name="alert" />
        <span>{refused.name} was not opened</span>
        <button
          type="button"
          className="button icon-only bare"
          aria-label="Close this message"
          onClick={() => notices.setState({ refused: undefined })}
        >
          <Icon name="cross" />
        </button>
      </h2>
      <p className="soft">{count(refused.problems.length)}; what was open stays open.</p>
      <ProblemList problems={refused.problems} />
    </section>
  );
}

/** What is wrong, or doubtful, with the open document as it now stands. */
export function DocumentProblems() {
  const problems = useDesk((state) => state.problems);
  const shown = useDesk(({ solved }) => solved !== undefined);
  const failed = problems.some(({ severity }) => severity === 'error');
  if (problems.length === 0) return null;
  return (
    <section className="refused" aria-label="Problems with the document" role={failed ? 'alert' : undefined}>
      <h2>
        <Icon name="alert" />
        <span>{failed ? `Not driven: ${count(problems.length)}` : 'Worth a look'}</span>
      </h2>
      {failed && shown ? <p className="soft">Still on show: the last run without one.</p> : null}
      <ProblemList problems={problems} />
    </section>
  );
}
