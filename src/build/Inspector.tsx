import { type Path, pathText } from '../../shared/path.ts';
import { useDesk } from '../app/workbench.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { labelOf } from '../panels/fields/layout.ts';
import { NameField } from './fields.tsx';
import { PlaceProvider } from './filling.ts';
import { FormProvider, useForm } from './form.ts';
import { Inside } from './Inside.tsx';
import { Items } from './Items.tsx';
import { Place } from './Place.tsx';

/** Lists of entries that the tree shows: they are no fields of what holds them. */
const LISTED = new Set([
  'members',
  'elements',
  'wheels',
  'masses',
  'outlines',
  'parts',
  'pulls',
  'drive',
  'driveline',
  'bodywork',
  'controllers',
  'winches',
  'steering',
  'strength',
]);

/** What is wrong, or doubtful, with the entry at a place. */
function OwnProblems({ path }: { readonly path: Path }) {
  const problems = useDesk((state) => state.problems);
  const id = pathText(path);
  const own = problems.filter(({ path: at }) => at === id || (path.length > 1 && at.startsWith(`${id}.`)));
  if (own.length === 0) return null;
  return (
    <ul className="problems">
      {own.map(({ message, hint, severity, path: at }) => (
        <li key={`${at} ${message}`} className={severity}>
          <span>{message}</span>
          {hint === undefined ? null : <span className="hint">{hint}</span>}
        </li>
      ))}
    </ul>
  );
}

/** Everything about the entry at a place, made from the schema. */
export function Inspector({ path }: { readonly path: Path }) {
  const raw = useForm();
  const value = valueAt(raw, path);
  if (!isList(value) && !isObject(value)) return null;
  return (
    <FormProvider value={raw}>
      <PlaceProvider value={Place}>
        <div className="inspector fields">
          <OwnProblems path={path} />
          {isList(value) ? (
            <Items path={path} label={labelOf(String(path.at(-1)))} part="" />
          ) : (
            <Entry path={path} value={value} />
          )}
        </div>
      </PlaceProvider>
    </FormProvider>
  );
}

/** The name of an entry, and its fields. */
function Entry({ path, value }: { readonly path: Path; readonly value: { readonly [key: string]: Json } }) {
  const name = typeof value.name === 'string' ? value.name : labelOf(String(path.at(-1)));
  const without = [
    ...(typeof path.at(-1) === 'number' ? ['kind'] : []),
    'name',
    ...(path.length === 1 || path.at(-1) === 'driveline' || path.at(-1) === 'strength' ? [...LISTED] : []),
  ];
  return (
    <>
      {typeof value.name === 'string' ? <NameField path={path} name={value.name} /> : null}
      <Inside path={path} part={name} without={without} />
    </>
  );
}
