import { useId } from 'react';
import type { Path } from '../../shared/path.ts';
import type { Either } from '../../shared/schema/describe.ts';
import { useBench } from '../app/workbench.ts';
import { valueAt } from '../documents/json.ts';
import { sayAs, titleOfWay, waysTaken } from '../edits/either.ts';
import { useBuild } from './build.ts';
import { useFormed } from './form.ts';

interface EitherProps {
  readonly path: Path;
  readonly part: string;
  readonly either: Either;
}

/** What must be said in one of several ways: which of them. The figures of the way that is chosen are filled in. */
export function EitherField({ path, part, either }: EitherProps) {
  const { documents } = useBench();
  const { apply } = useBuild();
  const taken = waysTaken(either, valueAt(useFormed(), path));
  const id = useId();
  const chosen = taken.length === 1 ? either.indexOf(taken[0] as Either[number]) : -1;
  return (
    <div className="row choice either" data-wrong={chosen === -1}>
      <label htmlFor={id} title="One of these is given; the others follow from it">
        given by
      </label>
      <select
        id={id}
        aria-label={`${part}: given by ${either.map(titleOfWay).join(' or ')}`}
        aria-invalid={chosen === -1}
        value={chosen}
        onChange={({ currentTarget }) => {
          const way = either[Number(currentTarget.value)];
          if (way !== undefined) apply(sayAs(documents.getState().raw, path, either, way));
        }}
      >
        {chosen === -1 ? (
          <option value={-1}>{taken.length === 0 ? 'choose one' : 'more than one: choose'}</option>
        ) : null}
        {either.map((way, i) => (
          <option key={titleOfWay(way)} value={i}>
            {titleOfWay(way)}
          </option>
        ))}
      </select>
    </div>
  );
}
