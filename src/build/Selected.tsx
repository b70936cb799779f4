import type { Path } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { formatQuantity } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { useDesk, useDocument, useSelection } from '../app/workbench.ts';
import { isObject, valueAt } from '../documents/json.ts';
import { isOneOfWheels } from '../edits/alike.ts';
import { kindTitle } from '../panels/fields/layout.ts';
import { EntryFacts } from '../reading/EntryFacts.tsx';
import { useBuild } from './build.ts';
import { useForm } from './form.ts';
import { useGroundOn } from './ground.ts';
import { Inspector } from './Inspector.tsx';
import { titleOf } from './parts.ts';

/** What the selected spring holds as it is drawn, where it is set at assembly. */
function Preloaded({ path }: { readonly path: Path }) {
  const value = useDocument(({ raw }) => valueAt(raw, path));
  const mechanism = useDesk((state) => state.drawn?.mechanism);
  if (!isObject(value) || value.preload === undefined) return null;
  const element = mechanism?.elements.find(({ name }) => name === value.name);
  const energy = element === undefined ? 0 : element.law.energy(0, new Float64Array(8)) * element.count;
  if (!(energy > 0)) return null;
  return (
    <p className="stored" role="note">
      Set at assembly: as drawn it holds {formatQuantity(energy, 'energy', 2)}. Let it unwind or unload under
      control before a pin comes out, and stay out of its way.
    </p>
  );
}

/** What is selected: its name, what can be done with it, and every figure of it. */
export function Selected() {
  const raw = useForm();
  const entry = useSelection((state) => state.entry);
  const onGround = useGroundOn();
  const { alike, duplicate, mirror, remove } = useBuild();
  const value = entry === undefined ? undefined : valueAt(raw, entry);
  if (entry === undefined || value === undefined)
    return (
      <div className="selected">
        <h2>Nothing is selected</h2>
        <p className="soft pad">
          Press on a part of the picture, or choose one in the {onGround ? 'list' : 'tree of parts'}. Points
          with a ring can be dragged, or moved with the arrow keys; Enter takes typed figures.
        </p>
      </div>
    );
  const listed = typeof entry.at(-1) === 'number';
  const kind =
    isObject(value) && typeof value.kind === 'string' ? kindTitle(raw, { path: entry, value }) : '';
  const says = describeField(scenarioDocument, raw, entry)?.description;
  return (
    <div className="selected">
      <div className="selected-head">
        <h2 title={says}>
          {titleOf(raw, entry)} <span className="kind">{kind}</span>
        </h2>
        {listed ? (
          <div className="group" role="toolbar" aria-label="With this part">
            <button
              type="button"
              className="button small"
              title="Duplicate (Ctrl+D)"
              onClick={() => duplicate(entry)}
            >
              Duplicate
            </button>
            {entry[0] === 'ground' ? null : (
              <button
                type="button"
                className="button small"
                title="Add its mirror image, front to rear (M)"
                onClick={() => mirror(entry)}
              >
                Mirror
              </button>
            )}
            <button
              type="button"
              className="button small"
              title="Remove (Delete)"
              onClick={() => remove(entry)}
            >
              Remove
            </button>
          </div>
        ) : null}
      </div>
      {isOneOfWheels(raw, entry) ? (
        <p className="pad">
          <button
            type="button"
            className="button small"
            title="Radius, mass and tyre of this axle line for every other one"
            onClick={() => alike(entry)}
          >
            Same wheels on all axles
          </button>
        </p>
      ) : null}
      <Preloaded path={entry} />
      {isObject(value) && typeof value.name === 'string' ? <EntryFacts name={value.name} /> : null}
      <Inspector path={entry} key={entry.join('.')} />
    </div>
  );
}
