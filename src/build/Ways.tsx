import { useId } from 'react';
import { kindsOf, optionFor, optionsOf, shapeOf } from '../../shared/schema/describe.ts';
import { isList, isObject, valueAt } from '../documents/json.ts';
import { useWriter } from '../panels/fields/writer.ts';
import { beginning, schemaOf, wayOf, waysOf } from './fieldShape.ts';
import { ChoiceField } from './fields.tsx';
import { about, type PlaceProps, useNow } from './filling.ts';
import { useFormed } from './form.ts';
import { Inside } from './Inside.tsx';
import { Items } from './Items.tsx';
import { namesFor } from './names.ts';

/** A place that may be filled in one of several ways: a choice of the way, and its fields. */
export function Ways(props: PlaceProps) {
  const { path, label, part } = props;
  const raw = useFormed();
  const now = useNow();
  const write = useWriter();
  const schema = schemaOf(raw, path);
  const value = valueAt(raw, path);
  const ways = schema === undefined ? undefined : waysOf(schema);
  const id = useId();
  if (schema === undefined || ways === undefined) return null;
  const chosen = wayOf(ways, schema, value);
  const choose = (index: number): void => {
    const way = ways[index];
    if (way === undefined) return;
    const fresh = beginning(way.schema, path, (at) => namesFor(raw, at));
    const was = now(path);
    const kept = isObject(was) && isObject(fresh) ? Object.entries(was).filter(([key]) => key in fresh) : [];
    write(path, isObject(fresh) ? { ...fresh, ...Object.fromEntries(kept) } : fresh);
  };
  return (
    <fieldset className="place">
      <legend className="unseen">{label}</legend>
      <div className="choice">
        <label htmlFor={id} title={about(raw, path)?.description}>
          {label}
        </label>
        <select
          id={id}
          aria-label={`${part} ${label}: how`}
          value={chosen}
          onChange={(event) => choose(Number(event.currentTarget.value))}
        >
          {chosen === -1 ? <option value={-1}>–</option> : null}
          {ways.map((way, i) => (
            <option key={way.title} value={i}>
              {way.title}
            </option>
          ))}
        </select>
      </div>
      {typeof value === 'string' && namesFor(raw, path)?.includes(value) === true ? (
        <ChoiceField
          path={path}
          label=""
          part={`${part} ${label}`}
          choices={namesFor(raw, path) ?? []}
          about={{ optional: false, takes: 'text' }}
        />
      ) : isList(value) ? (
        <Items {...props} label="" />
      ) : (
        <Inside path={path} part={`${part} ${label}`} />
      )}
    </fieldset>
  );
}

/** An object of one of several kinds: the kind, and the fields of that kind. */
export function Kinds(props: PlaceProps) {
  const { path, label, part } = props;
  const raw = useFormed();
  const now = useNow();
  const write = useWriter();
  const schema = schemaOf(raw, path);
  const kinds = schema === undefined ? undefined : kindsOf(schema);
  const value = valueAt(raw, path);
  const id = useId();
  if (schema === undefined || kinds === undefined || !isObject(value)) return null;
  const choose = (kind: string): void => {
    const option = optionsOf(schema).find((each) => optionFor(schema, { [kinds.field]: kind }) === each);
    if (option === undefined) return;
    const fresh = beginning(option, path, (at) => namesFor(raw, at));
    const keys = Object.keys(shapeOf(option) ?? {});
    const was = now(path);
    const kept = Object.entries(isObject(was) ? was : {}).filter(
      ([key]) => keys.includes(key) && key !== kinds.field,
    );
    write(path, { ...(fresh as object), ...Object.fromEntries(kept), [kinds.field]: kind });
  };
  return (
    <fieldset className="place">
      <legend className="unseen">{label}</legend>
      <div className="choice">
        <label htmlFor={id} title={about(raw, path)?.description}>
          {label}
        </label>
        <select
          id={id}
          aria-label={`${part} ${label}: kind`}
          value={String(value[kinds.field])}
          onChange={(event) => choose(event.currentTarget.value)}
        >
          {kinds.names.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </div>
      <Inside path={path} part={`${part} ${label}`} without={[kinds.field]} />
    </fieldset>
  );
}
