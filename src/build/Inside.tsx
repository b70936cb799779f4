import type { Path } from '../../shared/path.ts';
import { eitherAt, keysAt, kindsOf } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isObject, type Json, valueAt } from '../documents/json.ts';
import { keysOfWay, titleOfWay } from '../edits/either.ts';
import { labelOf } from '../panels/fields/layout.ts';
import { useWriter } from '../panels/fields/writer.ts';
import { EitherField } from './EitherField.tsx';
import { beginning, schemaOf, waysOf } from './fieldShape.ts';
import { about, type PlaceProps, usePlace } from './filling.ts';
import { useFormed } from './form.ts';
import { namesFor } from './names.ts';
import { PairRow, pairAt } from './PairRow.tsx';

/** An object inside of another. */
export function Group({ path, label, part }: PlaceProps) {
  const raw = useFormed();
  const write = useWriter();
  const here = about(raw, path);
  const pair = pairAt(raw, path);
  const bare = pair !== undefined;
  return (
    <div className="grouped">
      {bare ? (
        <PairRow fields={pair} label={label} part={part} />
      ) : (
        <fieldset className="place">
          <legend title={here?.description}>{label}</legend>
          <Inside path={path} part={`${part} ${label}`} />
        </fieldset>
      )}
      {here?.optional === true ? (
        <button
          type="button"
          className="button small bare"
          aria-label={`Leave ${label} out`}
          title="Leave out"
          onClick={() => write(path, undefined)}
        >
          ×
        </button>
      ) : null}
    </div>
  );
}

interface InsideProps {
  readonly path: Path;
  readonly part: string;
  /** Keys that are shown elsewhere. */
  readonly without?: readonly string[];
}

/** The fields of everything that may stand in the object at a place, with a way to add what is left out. */
export function Inside({ path, part, without = [] }: InsideProps) {
  const Place = usePlace();
  const raw = useFormed();
  const write = useWriter();
  const value = valueAt(raw, path);
  const eithers = eitherAt(scenarioDocument, raw, path);
  const ways = eithers.flatMap((either) => either.flatMap(keysOfWay));
  const leftOut = (key: string) => !isObject(value) || value[key] === undefined;
  const keys = keysAt(scenarioDocument, raw, path).filter(
    (key) => !without.includes(key) && !(ways.includes(key) && leftOut(key)),
  );
  const missing = keys.filter((key) => {
    const here = about(raw, [...path, key]);
    const left = isObject(value) && value[key] === undefined && here?.optional === true;
    return (
      left &&
      (here.takes === 'list' ||
        here.takes === 'object' ||
        (here.takes === 'choice' && kindly(raw, [...path, key])) ||
        hasWays(raw, [...path, key]))
    );
  });
  return (
    <>
      {eithers.map((either) => (
        <EitherField key={either.map(titleOfWay).join()} path={path} part={part} either={either} />
      ))}
      {keys
        .filter((key) => !missing.includes(key))
        .map((key) => (
          <Place key={key} path={[...path, key]} label={labelOf(key)} part={part} />
        ))}
      {missing.length === 0 ? null : (
        <div className="left-out">
          {missing.map((key) => (
            <button
              key={key}
              type="button"
              className="button small"
              title={about(raw, [...path, key])?.description}
              onClick={() => {
                const schema = schemaOf(raw, [...path, key]);
                if (schema !== undefined)
                  write(
                    [...path, key],
                    beginning(schema, [...path, key], (at) => namesFor(raw, at)),
                  );
              }}
            >
              Add {labelOf(key)}
            </button>
          ))}
        </div>
      )}
    </>
  );
}

const kindly = (document: Json, path: Path): boolean => {
  const schema = schemaOf(document, path);
  return schema !== undefined && kindsOf(schema) !== undefined;
};

const hasWays = (document: Json, path: Path): boolean => {
  const schema = schemaOf(document, path);
  return schema !== undefined && waysOf(schema) !== undefined;
};
