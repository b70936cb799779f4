import { type KeyboardEvent, Suspense, useRef } from 'react';
import { Comparison } from '../panels/Comparison.tsx';
import { DocumentProblems, RefusedFile } from '../panels/Problems.tsx';
import { panels } from '../panels/registry.ts';
import { Standing } from '../panels/Standing.tsx';
import { Verdicts } from '../panels/Verdicts.tsx';
import { useBench, useDesk, useSettings } from './workbench.ts';

/** Panel that a key goes to from the one at `now`. */
const goesTo: Readonly<Record<string, (now: number) => number>> = {
  ArrowRight: (now) => now + 1,
  ArrowLeft: (now) => now - 1,
  Home: () => 0,
  End: () => -1,
};

/** Tabs of the panels; arrow keys go from one to the next, Home and End to the ends, as in any tab list. */
function Tabs({ open }: { readonly open: string }) {
  const { settings } = useBench();
  const list = useRef<HTMLDivElement>(null);
  const show = (index: number): void => {
    const panel = panels[(index + panels.length) % panels.length];
    if (panel === undefined) return;
    settings.setState({ panel: panel.id });
    list.current?.querySelector<HTMLElement>(`#tab-${panel.id}`)?.focus();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const to = goesTo[event.key];
    if (to === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    show(to(panels.findIndex(({ id }) => id === open)));
  };
  return (
    <div className="tabs" role="tablist" aria-label="Panels" ref={list} onKeyDown={onKeyDown}>
      {panels.map(({ id, title }, index) => (
        <button
          key={id}
          id={`tab-${id}`}
          type="button"
          role="tab"
          aria-selected={id === open}
          aria-controls={`panel-${id}`}
          tabIndex={id === open ? 0 : -1}
          onClick={() => show(index)}
        >
          {title}
        </button>
      ))}
    </div>
  );
}

/** The column beside the picture: the answer on top, what can be changed and looked up below it. */
export function Side() {
  const mode = useDesk((state) => state.mode);
  // The answer comes first: panels bring scripts of their own.
  const ready = useDesk(({ drawn, problems }) => drawn !== undefined || problems.length > 0);
  const wanted = useSettings((state) => state.panel);
  const open = panels.find(({ id }) => id === wanted) ?? panels[0];
  return (
    <aside className="side" aria-label="Answers and figures">
      <RefusedFile />
      <DocumentProblems />
      {mode === 'stand' ? <Standing /> : <Verdicts />}
      <Comparison />
      <Tabs open={open.id} />
      <div className="panels">
        {panels.map(({ id, Panel }) => (
          <div
            key={id}
            id={`panel-${id}`}
            role="tabpanel"
            aria-labelledby={`tab-${id}`}
            className="panel"
            hidden={id !== open.id}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: a panel that scrolls must be reached by keyboard.
            tabIndex={0}
          >
            {/* The form keeps what is being typed and which parts stand open; the others are cheap to make again. */}
            <Suspense>{ready && (id === open.id || id === 'fields') ? <Panel /> : null}</Suspense>
          </div>
        ))}
      </div>
    </aside>
  );
}
