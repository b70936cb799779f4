import { type FieldAbout, kindsOf, optionFor } from '../../shared/schema/describe.ts';
import { isList, valueAt } from '../documents/json.ts';
import { FigureField } from '../panels/fields/FigureField.tsx';
import { schemaOf, waysOf } from './fieldShape.ts';
import { ChoiceField, TextField, TruthField } from './fields.tsx';
import { about, type PlaceProps } from './filling.ts';
import { useFormed } from './form.ts';
import { Group } from './Inside.tsx';
import { Items } from './Items.tsx';
import { namesFor } from './names.ts';
import { takesFigure } from './PairRow.tsx';
import { Kinds, Ways } from './Ways.tsx';

/** A field for whatever the schema has at a place of the document. */
export function Place({ path, label, part }: PlaceProps) {
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
