import { useId } from 'react';
import { type Path, pathText } from '../../shared/path.ts';
import {
  describeField,
  type FieldAbout,
  keysAt,
  kindsOf,
  optionFor,
  optionsOf,
  shapeOf,
} from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { useBench, useDesk } from '../app/workbench.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { FigureField } from '../panels/fields/FigureField.tsx';
import { type Field, labelOf } from '../panels/fields/layout.ts';
import { useWriter } from '../panels/fields/writer.ts';
import { beginning, itemOf, nextItem, schemaOf, wayOf, waysOf } from './fieldShape.ts';
import { ChoiceField, NameField, TextField, TruthField } from './fields.tsx';
import { FormProvider, useForm, useFormed } from './form.ts';
import { namesFor } from './names.ts';

/** Longest list whose items get fields of their own; longer ones (measured roads) are edited in the file. */
const MOST_ITEMS = 40;

interface PlaceProps {
  readonly path: Path;
  readonly label: string;
  /** What it belongs to, for screen readers: 'rear bogie'. */
  readonly part: string;
}

/** The value at a place as it is now: what a button does starts from that, not from what was drawn. */
function useNow(): (path: Path) => Json | undefined {
  const { documents } = useBench();
  return (path) => valueAt(documents.getState().raw, path);
}

const about = (document: Json, path: Path): FieldAbout | undefined =>
  describeField(scenarioDocument, document, path);

const takesFigure = ({ takes }: FieldAbout): boolean => takes === 'figure' || takes === 'number';

/** The two figures of a point, or of a pair in a table; undefined for anything else. */
function pairAt(document: Json, path: Path): readonly Field[] | undefined {
  const fields = keysAt(scenarioDocument, document, path).flatMap((key): Field[] => {
    const field = about(document, [...path, key]);
    return field !== undefined && takesFigure(field)
      ? [{ path: [...path, key], part: labelOf(key), about: field }]
      : [];
  });
  const keys = keysAt(scenarioDocument, document, path);
  return fields.length === 2 && keys.length === 2 && fields.every(({ part }) => part.length <= 7)
    ? fields
    : undefined;
}

function PairRow({ fields, label, part }: { readonly fields: readonly Field[] } & Omit<PlaceProps, 'path'>) {
  return (
    <fieldset className="row pair">
      <legend>{label}</legend>
      {fields.map((field, i) => (
        <FigureField
          key={field.part}
          field={field}
          label={field.part}
          name={`${part} ${label} ${field.part}`}
          speaksForPair={i === 0}
        />
      ))}
    </fieldset>
  );
}

/** A field for whatever the schema has at a place of the document. */
function Place({ path, label, part }: PlaceProps) {
  const raw = useFormed();
  const schema = schemaOf(raw, path);
  const here = about(raw, path);
  const value = valueAt(raw, path);
  if (schema === undefined || here === undefined) return null;
  if (takesFigure(here)) {
    return (
      <div className="row">
        <FigureField field={{ path, part: '', about: here }} label={label} name={`${part} ${label}`} />
      </div>
    );
  }
  const props = { path, label, part };
  const ways = waysOf(schema);
  if (ways !== undefined && value !== undefined) return <Ways {...props} />;
  if (value === undefined && here.optional && (here.takes === 'list' || here.takes === 'object')) return null;
  if (kindsOf(schema) !== undefined) return <Kinds {...props} />;
  if (here.takes === 'choice') return <ChoiceField {...props} about={here} choices={here.choices ?? []} />;
  if (here.takes === 'truth') return <TruthField {...props} about={here} />;
  if (here.takes === 'list' || isList(value)) return <Items {...props} />;
  if (here.takes === 'text') return <Words {...props} about={here} />;
  const options = optionFor(schema, value);
  const enums = options === undefined ? undefined : enumOf(options);
  if (enums !== undefined) return <ChoiceField {...props} about={here} choices={enums} />;
  return <Group {...props} />;
}

function enumOf(schema: NonNullable<ReturnType<typeof optionFor>>): readonly string[] | undefined {
  const { entries } = schema._zod.def as unknown as { entries?: Readonly<Record<string, string>> };
  return entries === undefined ? undefined : Object.values(entries);
}

/** Text: one of the names of the vehicle, or what the builder likes. */
function Words({ about: here, ...props }: PlaceProps & { readonly about: FieldAbout }) {
  const raw = useFormed();
  const names = namesFor(raw, props.path);
  if (names !== undefined) return <ChoiceField {...props} about={here} choices={names} />;
  return <TextField {...props} about={here} />;
}

/** A place that may be filled in one of several ways: a choice of the way, and its fields. */
function Ways(props: PlaceProps) {
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
function Kinds(props: PlaceProps) {
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

/** A list: its items with buttons to take one away or add one. Names are ticked. */
function Items({ path, label, part }: PlaceProps) {
  const raw = useFormed();
  const { documents } = useBench();
  const now = useNow();
  const write = useWriter();
  const value = valueAt(raw, path);
  const list = isList(value) ? value : [];
  const listed = (): readonly Json[] => {
    const items = now(path);
    return isList(items) ? items : [];
  };
  const names = namesFor(raw, [...path, 0]);
  if (names !== undefined) {
    const ticked = (name: string, on: boolean) =>
      write(path, on ? [...listed(), name] : listed().filter((each) => each !== name));
    return (
      <fieldset className="place">
        <legend title={about(raw, path)?.description}>{label}</legend>
        {names.map((name) => (
          <label key={name} className="check">
            <input
              type="checkbox"
              checked={list.includes(name)}
              onChange={(event) => ticked(name, event.currentTarget.checked)}
            />
            {name}
          </label>
        ))}
      </fieldset>
    );
  }
  if (list.length > MOST_ITEMS)
    return (
      <p className="soft">
        {label}: {list.length} entries. So many are changed on the picture or in the file.
      </p>
    );
  return (
    <fieldset className="place">
      <legend title={about(raw, path)?.description}>{label}</legend>
      {list.map((_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: an item is its place in the list.
        <div className="item" key={i}>
          <Place path={[...path, i]} label={`${itemWord(raw, path)} ${i + 1}`} part={`${part} ${label}`} />
          <button
            type="button"
            className="button small bare"
            aria-label={`Take ${label} ${i + 1} away`}
            title="Take away"
            onClick={() =>
              write(
                path,
                listed().filter((__, each) => each !== i),
              )
            }
          >
            ×
          </button>
        </div>
      ))}
      <button
        type="button"
        className="button small"
        onClick={() => {
          const item = nextItem(documents.getState().raw, path, (at) => namesFor(raw, at));
          if (item !== undefined) write(path, [...listed(), item]);
        }}
      >
        Add {itemWord(raw, path)}
      </button>
    </fieldset>
  );
}

function itemWord(document: Json, path: Path): string {
  const keys = Object.keys(shapeOf(itemOf(document, path) ?? scenarioDocument) ?? {});
  return keys.join() === 'x,z' ? 'point' : 'entry';
}

/** An object inside of another. */
function Group({ path, label, part }: PlaceProps) {
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
  const raw = useFormed();
  const write = useWriter();
  const keys = keysAt(scenarioDocument, raw, path).filter((key) => !without.includes(key));
  const value = valueAt(raw, path);
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
  if (isList(value))
    return (
      <FormProvider value={raw}>
        <div className="inspector fields">
          <OwnProblems path={path} />
          <Items path={path} label={labelOf(String(path.at(-1)))} part="" />
        </div>
      </FormProvider>
    );
  if (!isObject(value)) return null;
  const name = typeof value.name === 'string' ? value.name : labelOf(String(path.at(-1)));
  const without = [
    ...(typeof path.at(-1) === 'number' ? ['kind'] : []),
    'name',
    ...(path.length === 1 || path.at(-1) === 'driveline' || path.at(-1) === 'strength' ? [...LISTED] : []),
  ];
  return (
    <FormProvider value={raw}>
      <div className="inspector fields">
        <OwnProblems path={path} />
        {typeof value.name === 'string' ? <NameField path={path} name={value.name} /> : null}
        <Inside path={path} part={name} without={without} />
      </div>
    </FormProvider>
  );
}
