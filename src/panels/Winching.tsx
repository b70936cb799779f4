import { useDeferredValue, useMemo } from 'react';
import type { LedgerLine } from '../../shared/report.ts';
import { formatShare } from '../../shared/units.ts';
import { type SteeringStudy, studySteering } from '../../sim/steering/study.ts';
import { studyWinch, type WinchStudy } from '../../sim/winch/study.ts';
import { type Figures, useDesk, useFigures, useShowing } from '../app/workbench.ts';
import { figureWords } from './figures.ts';
import './studies.css';

/** Every part with its use of the limit, the nearest first; unknown limits come last and say so. */
function Uses({ name, uses }: { readonly name: string; readonly uses: readonly LedgerLine[] }) {
  const showing = useShowing();
  const sorted = [...uses].sort((a, b) => (b.use ?? -1) - (a.use ?? -1));
  return (
    <table className="figures">
      <thead>
        <tr>
          <th scope="col">part</th>
          <th scope="col">carries</th>
          <th scope="col">limit</th>
          <th scope="col">use</th>
        </tr>
      </thead>
      <tbody>
        {sorted.map(({ of, use, carries, limit, unit, quantity, says }) => (
          <tr key={of}>
            <th scope="row" title={says}>
              {of.replace(`${name}: `, '')}
            </th>
            <td>{figureWords(carries, unit, quantity, showing)}</td>
            <td>{limit === null ? 'not known' : figureWords(limit, unit, quantity, showing)}</td>
            <td className={use !== null && use > 1 ? 'over' : undefined}>
              {use === null ? 'unknown' : use > 100 ? 'over 10 000 %' : formatShare(use)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Sentences under a head; cautions stand out, remarks do not. */
function Notes({
  title,
  texts,
}: {
  readonly title: 'Caution' | 'Remarks';
  readonly texts: readonly string[];
}) {
  const { say } = useFigures();
  if (texts.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul className={title === 'Remarks' ? 'soft' : undefined}>
        {texts.map((text) => (
          <li key={text}>{title === 'Caution' ? text : say(text)}</li>
        ))}
      </ul>
    </>
  );
}

/** What is asked of a winch and what it takes, in a few sentences. */
function haulWords(study: WinchStudy, { quantity }: Figures): string {
  const { kind, task, force, tension, layer, layerKnown, withDrive, short } = study;
  const newtons = (value: number) => quantity(value, 'force');
  const slope = task.slope === 0 ? 'the level' : `a slope of ${quantity(task.slope, 'angle')}`;
  const hole = task.hole > 0 ? `, out of a hole ${quantity(task.hole, 'length')} deep` : '';
  if (kind !== 'hauled')
    return `On ${slope}${hole}: no balance was found; its rope may lift the vehicle off its wheels, or tip it.`;
  const words = [
    `On ${slope}${hole}, ${task.lines === 1 ? 'one line' : `${task.lines} lines`}: a pull of ${newtons(force)} moves it, with ${newtons(tension)} in the rope at the drum, from layer ${layer}${layerKnown ? '' : ' (the last, for want of a distance)'}.`,
    short ? 'The rope is too short for that.' : '',
    withDrive === null
      ? ''
      : withDrive === 0
        ? 'Its own wheels could do it without the rope, if they find their grip.'
        : `With its own wheels driving, ${newtons(withDrive)} are enough.`,
  ];
  return words.filter((text) => text !== '').join(' ');
}

const canWords = (can: boolean | null): string =>
  can === null ? 'not known whether it can' : can ? 'it can' : 'it cannot';

function Winch({ study }: { readonly study: WinchStudy }) {
  const figures = useFigures();
  const { quantity } = figures;
  const newtons = (value: number) => quantity(value, 'force');
  const { wheels, layers, ownEnd, hung } = study;
  return (
    <section className="measure">
      <h3>{study.name}</h3>
      <p>{haulWords(study, figures)}</p>
      <Notes title="Caution" texts={study.cautions} />
      <Uses name={study.name} uses={study.uses} />
      {wheels.length === 0 ? null : (
        <table className="figures">
          <thead>
            <tr>
              <th scope="col">axle line</th>
              <th scope="col">parked there</th>
              <th scope="col">while pulled</th>
            </tr>
          </thead>
          <tbody>
            {wheels.map(({ name, parked, load, off }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{parked === null ? '–' : newtons(parked)}</td>
                <td className={off ? 'over' : undefined}>{off ? 'off the ground' : newtons(load)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <table className="figures">
        <thead>
          <tr>
            <th scope="col">layer</th>
            <th scope="col">rope up to</th>
            <th scope="col" title="One line, motor at standstill">
              most pull
            </th>
          </tr>
        </thead>
        <tbody>
          {layers.slice(0, 12).map(({ layer, upTo, pull }) => (
            <tr key={layer}>
              <th scope="row">{layer}</th>
              <td>{quantity(upTo, 'length')}</td>
              <td>{pull === null ? '–' : newtons(pull)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="soft">
        {ownEnd === null
          ? ''
          : `On the level, rope straight up: '${ownEnd.line}' leaves the ground at ${newtons(ownEnd.force)}; ${canWords(ownEnd.can)}. `}
        Hanging from its own rope: {newtons(hung.force)}; {canWords(hung.can)}.
      </p>
      <Notes title="Remarks" texts={study.remarks} />
    </section>
  );
}

function Steering({ study }: { readonly study: SteeringStudy }) {
  const { quantity } = useFigures();
  const torque = (value: number) => quantity(value, 'torque');
  return (
    <section className="measure">
      <h3>{study.name}</h3>
      <p>
        At standstill {torque(study.worst.least)} to {torque(study.worst.most)} at the servo or motor.
      </p>
      <Notes title="Caution" texts={study.cautions} />
      <Uses name={study.name} uses={study.uses} />
      <table className="figures">
        <thead>
          <tr>
            <th scope="col">steered</th>
            <th scope="col">load each</th>
            <th scope="col" title="King-pin offset at the ground">
              scrub radius
            </th>
            <th scope="col" title="By the formula of a square contact and that of a round one; one wheel">
              at the king-pin
            </th>
          </tr>
        </thead>
        <tbody>
          {study.wheels.map((wheel) => (
            <tr key={wheel.line}>
              <th scope="row">{wheel.line}</th>
              <td>{quantity(wheel.load, 'force')}</td>
              <td>{quantity(wheel.offset, 'length')}</td>
              <td>
                {torque(Math.min(wheel.square, wheel.round))} to {torque(Math.max(wheel.square, wheel.round))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Notes title="Remarks" texts={study.remarks} />
    </section>
  );
}

/** What the winches of the vehicle have to pull for their task, and what steering takes at standstill. */
export function Winching() {
  const mechanism = useDeferredValue(useDesk(({ drawn }) => drawn?.mechanism));
  const solved = useDeferredValue(useDesk((state) => state.solved));
  const winches = useMemo(
    () =>
      (mechanism?.winches ?? []).map((winch) =>
        studyWinch(mechanism as NonNullable<typeof mechanism>, winch),
      ),
    [mechanism],
  );
  const steering = useMemo(() => {
    if (solved === undefined) return [];
    const { loads } = solved.recording.standing;
    return (solved.mechanism.steering ?? []).map((one) => studySteering(solved.mechanism, one, loads));
  }, [solved]);
  return (
    <div className="measures winching">
      {winches.length + steering.length === 0 ? (
        <p className="soft">
          This vehicle has neither a winch nor a steering. They are written in the scenario as 'winches' and
          'steering' of the vehicle.
        </p>
      ) : null}
      {winches.map((study) => (
        <Winch key={study.name} study={study} />
      ))}
      {steering.map((study) => (
        <Steering key={study.name} study={study} />
      ))}
    </div>
  );
}
