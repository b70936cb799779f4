import { useMemo } from 'react';
import { useDesk, useShowing } from '../app/workbench.ts';
import { factsOf, factWords } from './facts.ts';
import { thingsOf } from './things.ts';

/** Figures of the selected part as it stands where its run begins; nothing for what carries none, or while they are old. */
export function EntryFacts({ name }: { readonly name: string }) {
  const solved = useDesk((state) => (state.stale ? undefined : state.solved));
  const showing = useShowing();
  const facts = useMemo(() => {
    const thing =
      solved && thingsOf(solved.mechanism).find((each) => each.name === name && each.kind !== 'pin');
    return solved === undefined || thing === undefined ? [] : factsOf(solved, thing, 0);
  }, [solved, name]);
  if (facts.length === 0) return null;
  return (
    <details className="entry-facts">
      <summary>Figures as it stands</summary>
      <dl className="facts">
        {facts.map((fact) => (
          <div key={fact.title}>
            <dt>{fact.title}</dt>
            <dd>{factWords(fact, showing)}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
