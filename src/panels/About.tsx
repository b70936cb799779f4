import { formatNumber, formatQuantity } from '../../shared/units.ts';
import { useBench, useDesk, useDocument } from '../app/workbench.ts';

const cautions = [
  'A pressed spring or a twisted bar holds energy. Unload it before you take anything apart, and wear eye protection.',
  'Arms, rods and bogies close on fingers. Cut the power and block the wheels before you reach in.',
  'Lithium cells burn when they are crushed, shorted or wrongly charged. Charge them watched, on a surface that cannot burn, with a charger made for them.',
  'A winch line under load can whip. Keep out of its plane, and lay something heavy over it.',
  'Full-size vehicles: these figures are no proof of safety. Loads, roll-over, brakes and changes to the suspension are matters of local codes and licensed practice.',
] as const;

const limits = [
  'Side view only: left and right wheels of an axle line move together. Roll, steering and cross-slopes are not in it.',
  'Bodies are rigid, pins have no play, the ground does not give way.',
  'Tyres push back along the whole rim with one stiffness, damping and grip; they have no tread and no heat.',
  'The drive is a torque limit and a target speed, without motor, gears or differentials.',
] as const;

/** Which renderer draws; the canvas says so on its own element. */
function rendererName(element: HTMLElement | null): string {
  return element?.querySelector<HTMLElement>('[data-renderer]')?.dataset.renderer ?? 'not started';
}

function Diagnostics() {
  const { stage } = useBench();
  const solved = useDesk((state) => state.solved);
  if (solved === undefined) return null;
  const { recording, took } = solved;
  return (
    <dl className="facts">
      <dt>drawn with</dt>
      <dd>{rendererName(stage.element)}</dd>
      {recording.mode === 'crawl' ? (
        <>
          <dt>stations</dt>
          <dd>{recording.frames}, closer where contacts change</dd>
        </>
      ) : (
        <>
          <dt>substep</dt>
          <dd title={recording.substepSays}>
            {formatQuantity(recording.substep * 1e3, 'ratio', 3, '1')} ms
            <span className="soft"> {recording.substepSays}</span>
          </dd>
          <dt>frames</dt>
          <dd>
            {recording.frames} at {formatNumber(recording.rate)} per second
          </dd>
        </>
      )}
      <dt>recording</dt>
      <dd>{formatNumber(recording.block.byteLength / 1e6)} MB</dd>
      <dt>solved in</dt>
      <dd>
        {formatNumber(took)} ms
        {recording.mode === 'crawl'
          ? ''
          : `, ${formatNumber((recording.end.time * 1000) / Math.max(took, 1e-3), 2)} times as fast as the vehicle`}
      </dd>
    </dl>
  );
}

/** What the scenario's author noted, what to be careful with, what the model leaves out, and how it was computed. */
export function About() {
  const notes = useDocument(({ raw }) => (raw as { notes?: string } | null)?.notes);
  return (
    <div className="about">
      {notes === undefined ? null : (
        <section>
          <h3>Notes of this scenario</h3>
          <p className="notes">{notes}</p>
        </section>
      )}
      <section>
        <h3>Take care</h3>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
      <section>
        <h3>What the model leaves out</h3>
        <ul>
          {limits.map((limit) => (
            <li key={limit}>{limit}</li>
          ))}
        </ul>
      </section>
      <section>
        <h3>Diagnostics</h3>
        <Diagnostics />
      </section>
    </div>
  );
}
