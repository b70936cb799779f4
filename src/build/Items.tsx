import type { Path } from '../../shared/path.ts';
import { shapeOf } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { useBench } from '../app/workbench.ts';
import { isList, type Json, valueAt } from '../documents/json.ts';
import { useWriter } from '../panels/fields/writer.ts';
import { itemOf, nextItem } from './fieldShape.ts';
import { about, type PlaceProps, useNow, usePlace } from './filling.ts';
import { useFormed } from './form.ts';
import { namesFor } from './names.ts';

/** Longest list whose items get fields of their own; longer ones (measured roads) are edited in the file. */
const MOST_ITEMS = 40;

/** A list: its items with buttons to take one away or add one. Names are ticked. */
export function Items({ path, label, part }: PlaceProps) {
  const Place = usePlace();
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
