import { useEffect, useMemo, useRef, useState } from 'react';
import { channels } from '../../shared/recording.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk } from '../app/workbench.ts';
import { offersFor, offersOf } from './lines.ts';
import { toggleLine, useLines } from './useLines.ts';
import './reading.css';

/** Longest list that is laid out; typing narrows it. */
const MOST = 120;

const groups: Readonly<Record<string, string>> = {
  run: 'vehicle',
  wheel: 'wheels',
  member: 'members',
  element: 'springs, bars, dampers, stops',
  joint: 'pins and guides',
  rod: 'rods',
  beam: 'arms and beams',
  source: 'motors',
  metered: 'motors',
  body: 'bodies',
};

/** Every recorded column, to be drawn as a line under the strips or taken away again. */
export function Chooser() {
  const bench = useBench();
  const solved = useDesk((state) => state.solved);
  const lines = useLines();
  const [typed, setTyped] = useState('');
  const field = useRef<HTMLInputElement>(null);
  const offers = useMemo(
    () => (solved === undefined ? [] : offersOf(solved.mechanism, solved.recording)),
    [solved],
  );
  const found = useMemo(() => offersFor(offers, typed), [offers, typed]);
  useEffect(() => {
    const was = document.activeElement;
    field.current?.focus();
    return () => {
      if (was instanceof HTMLElement) was.focus();
    };
  }, []);
  const close = (): void => bench.notices.setState({ adding: false });
  return (
    <section
      className="sheet chooser"
      aria-label="Add a line"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.preventDefault();
        close();
      }}
    >
      <h2>
        Add a line
        <button
          type="button"
          className="button icon-only bare"
          aria-label="Close the choice of lines"
          onClick={close}
        >
          <Icon name="cross" />
        </button>
      </h2>
      <input
        ref={field}
        type="search"
        className="find"
        aria-label="Find a quantity"
        placeholder="bending, rear, grip …"
        value={typed}
        onChange={({ currentTarget }) => setTyped(currentTarget.value)}
      />
      <p className="soft" role="status">
        {found.length} of {offers.length} recorded quantities
        {found.length > MOST ? `; the first ${MOST} are listed` : ''}. Lines are kept for this vehicle.
      </p>
      <ul className="offers">
        {found.slice(0, MOST).map(({ line, title, unit, says, channel }) => (
          <li key={line}>
            <label className="check" title={says}>
              <input
                type="checkbox"
                checked={lines.includes(line)}
                onChange={() => toggleLine(bench, line)}
              />
              <span>{title}</span>
              <span className="soft">
                {groups[channels[channel].per]}
                {unit === '1' ? '' : `, ${unit}`}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}
