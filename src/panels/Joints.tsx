import type { JointReport } from '../../shared/report.ts';
import { type Showing, showQuantity } from '../../shared/units.ts';
import { jumpTo } from '../app/actions.ts';
import { useBench, useDesk, useSettings, useShowing } from '../app/workbench.ts';
import { figureWords } from './figures.ts';
import './studies.css';

const groups = [
  { title: 'Pins and guides', parts: ['pin', 'guide'] },
  { title: 'Rods', parts: ['rod'] },
  { title: 'Arms and beams', parts: ['member'] },
  { title: 'Springs, bars and dampers', parts: ['element'] },
] as const satisfies readonly { title: string; parts: readonly JointReport['part'][] }[];

/** What a quantity is called, and what its sign means. */
const words: Readonly<Record<JointReport['quantity'], readonly [title: string, says: string]>> = {
  force: ['force', 'across the pin, or across the guide'],
  moment: ['moment', 'of the guide on what it guides'],
  pull: ['pull', 'along the rod'],
  push: ['push', 'along the rod'],
  axial: ['axial', 'along the member, pull positive'],
  shear: ['shear', 'across the member'],
  bending: ['bending', 'in the member'],
  effort: ['effort', 'negative where it pushes back'],
  twist: ['twist', 'of one bar, from where it is free'],
  stress: ['stress', 'shear stress at the surface of one bar'],
};

/** '(each of 2: 12 N)', and where in the member it is. */
function besideWords({ count, each, unit, quantity, at }: JointReport, showing: Showing): string {
  const beside: string[] = [];
  if (count !== undefined && each !== undefined)
    beside.push(`each of ${count}: ${figureWords(each, unit, quantity, showing)}`);
  if (at !== undefined)
    beside.push(
      `at x ${showQuantity(at.x, 'length', showing)}, z ${showQuantity(at.z, 'length', showing)} as drawn`,
    );
  return beside.join('; ');
}

function Line({ row }: { readonly row: JointReport }) {
  const bench = useBench();
  const [title, says] = words[row.quantity];
  const showing = useShowing();
  const beside = besideWords(row, showing);
  return (
    <div className="measure-line">
      <dt title={says}>{title}</dt>
      <dd>
        <button
          type="button"
          className="jump"
          title={`Go to this moment${beside === '' ? '' : ` (${beside})`}`}
          onClick={() => jumpTo(bench, row.moment)}
        >
          <b>{figureWords(row.value, row.unit, row.quantity, showing)}</b>
          <span className="soft"> at {showQuantity(row.moment.station, 'length', showing)}</span>
        </button>
      </dd>
    </div>
  );
}

/** Rows about one part, in the order in which they come. */
function byPart(rows: readonly JointReport[]): ReadonlyMap<string, readonly JointReport[]> {
  const found = new Map<string, JointReport[]>();
  for (const row of rows) found.set(row.of, [...(found.get(row.of) ?? []), row]);
  return found;
}

function ForcesSwitch() {
  const { settings } = useBench();
  const forces = useSettings((state) => state.forces);
  return (
    <label className="check" title="J">
      <input
        type="checkbox"
        checked={forces === 'joints'}
        onChange={({ currentTarget }) =>
          settings.setState({ forces: currentTarget.checked ? 'joints' : 'wheels' })
        }
      />
      Draw them on the vehicle
    </label>
  );
}

/** What the drive does within each driven bogie: the load that it moves, and the pivot height at which it moves none. */
function Bogies() {
  const bench = useBench();
  const showing = useShowing();
  const measures = useDesk(({ solved }) => solved?.report.measures);
  const shifts = (measures ?? []).filter(({ name }) => name === 'bogieDriveShift');
  if (shifts.length === 0) return null;
  const evenOf = (of: string | undefined) =>
    measures?.find((row) => row.name === 'bogieEvenPivot' && row.of === of)?.value ?? null;
  return (
    <section className="measure">
      <h3>Driven bogies</h3>
      <p className="soft">
        Load that pull, drive torque and pivot height move from a bogie's front end to its rear, where its
        wheels pull hardest; negative the other way.
      </p>
      {shifts.map(({ of, value, unit, name, moment }) => (
        <div key={of} className="joint">
          <h4>{of}</h4>
          <dl>
            <div className="measure-line">
              <dt>moved</dt>
              <dd>
                <button
                  type="button"
                  className="jump"
                  title="Go to this moment"
                  disabled={moment === undefined}
                  onClick={() => moment !== undefined && jumpTo(bench, moment)}
                >
                  <b>{figureWords(value, unit, name, showing)}</b>
                </button>
              </dd>
            </div>
            <div className="measure-line">
              <dt>none with the pivot at height</dt>
              <dd>
                <b>{figureWords(evenOf(of), 'm', 'bogieEvenPivot', showing)}</b>
              </dd>
            </div>
          </dl>
        </div>
      ))}
    </section>
  );
}

/** The largest force in each pin, rod, arm and bar of the run, and where it happened. */
export function Joints() {
  const rows = useDesk(({ solved }) => solved?.report.joints);
  const mode = useDesk((state) => state.mode);
  return (
    <div className="measures joints">
      <ForcesSwitch />
      <p className="soft">
        {mode === 'stand'
          ? 'As it stands, for all equal parts of an axle line together.'
          : 'The largest of the run, for all equal parts of an axle line together. A click goes to its moment.'}
      </p>
      <Bogies />
      {groups.map(({ title, parts }) => {
        const found = (rows ?? []).filter(({ part }) => (parts as readonly string[]).includes(part));
        if (found.length === 0) return null;
        return (
          <section key={title} className="measure">
            <h3>{title}</h3>
            {[...byPart(found)].map(([of, lines]) => (
              <div key={of} className="joint">
                <h4>{of}</h4>
                <dl>
                  {lines.map((row) => (
                    <Line key={row.quantity} row={row} />
                  ))}
                </dl>
              </div>
            ))}
          </section>
        );
      })}
    </div>
  );
}
