import { useEffect, useRef } from 'react';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDocument } from '../app/workbench.ts';
import { stepTo } from '../store/document.ts';

/** Steps that are laid out at once on either side of the present one: a history may have fifty thousand. */
const MOST_ROWS = 200;

/** All that was done to the document, newest on top; each line goes to the moment after it. */
export function Steps() {
  const { documents, keeping } = useBench();
  const past = useDocument((state) => state.past);
  const future = useDocument((state) => state.future);
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => sheet.current?.focus(), []);
  const close = (): void => keeping.setState({ view: undefined });
  const from = Math.max(0, past.length - MOST_ROWS);
  const rows = [...past.slice(from), ...future.slice(0, MOST_ROWS)]
    .map(({ says }, i) => ({ says, count: from + i + 1 }))
    .reverse();
  return (
    <section
      className="sheet steps"
      aria-label="All steps"
      ref={sheet}
      tabIndex={-1}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      <h2>
        Steps
        <button
          type="button"
          className="button icon-only bare"
          aria-label="Close the list of steps"
          onClick={close}
        >
          <Icon name="cross" />
        </button>
      </h2>
      {rows.length === 0 ? <p className="soft">Nothing has been changed yet.</p> : null}
      <ol reversed start={from + rows.length}>
        {rows.map(({ says, count }) => (
          <li key={count}>
            <button
              type="button"
              className="step"
              data-undone={count > past.length}
              aria-current={count === past.length ? 'step' : undefined}
              onClick={() => stepTo(documents, count)}
            >
              <span>{says}</span>
              <span className="count">{count}</span>
            </button>
          </li>
        ))}
        {from === 0 && rows.length > 0 ? (
          <li>
            <button
              type="button"
              className="step"
              aria-current={past.length === 0 ? 'step' : undefined}
              onClick={() => stepTo(documents, 0)}
            >
              <span>as it was opened</span>
            </button>
          </li>
        ) : null}
      </ol>
      {from > 0 ? (
        <p className="soft">{from} earlier steps come into the list as these are taken back.</p>
      ) : null}
    </section>
  );
}
