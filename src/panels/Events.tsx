import { useEffect, useMemo, useRef, useState } from 'react';
import type { RunEvent } from '../../shared/recording.ts';
import { showSentence } from '../../shared/units.ts';
import { jumpTo } from '../app/actions.ts';
import { frameOf } from '../app/moments.ts';
import { useBench, useDesk, useShowing } from '../app/workbench.ts';
import { timeShownIn, withUnit } from '../charts/figures.ts';
import { eventTitles, eventWords } from './words.ts';

/** Longest list that is laid out at once; a washboard at speed has thousands of events. */
const MOST_ROWS = 300;

type Kind = RunEvent['kind'];

function KindFilter({
  kinds,
  kind,
  onPick,
}: {
  readonly kinds: readonly Kind[];
  readonly kind: Kind | undefined;
  readonly onPick: (kind: Kind | undefined) => void;
}) {
  return (
    <label className="filter">
      <span className="unseen">Kind of event</span>
      <select
        value={kind ?? ''}
        onChange={({ currentTarget }) =>
          onPick(currentTarget.value === '' ? undefined : (currentTarget.value as Kind))
        }
      >
        <option value="">all events</option>
        {kinds.map((each) => (
          <option key={each} value={each}>
            {eventTitles[each]}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Marks the newest event that has happened at the playhead, without React. */
function useMarkPresent(frames: readonly number[]) {
  const list = useRef<HTMLOListElement>(null);
  const { playhead } = useBench();
  useEffect(() => {
    const show = (frame: number): void => {
      const index = frames.findLastIndex((at) => at <= frame);
      const rows = list.current?.children ?? [];
      for (let i = 0; i < rows.length; i += 1) rows[i]?.classList.toggle('present', i === index);
    };
    show(playhead.frame);
    return playhead.watch(show);
  }, [playhead, frames]);
  return list;
}

/** Everything that happened during the run; a click goes there. */
export function Events() {
  const bench = useBench();
  const showing = useShowing();
  const recording = useDesk(({ solved }) => solved?.recording);
  const [wanted, setKind] = useState<Kind>();
  const kinds = useMemo(() => [...new Set(recording?.events.map(({ kind }) => kind))], [recording]);
  const kind = wanted !== undefined && kinds.includes(wanted) ? wanted : undefined;
  const rows = useMemo(() => {
    const events = recording?.events.filter((event) => kind === undefined || event.kind === kind) ?? [];
    return events.slice(0, MOST_ROWS).map((event) => ({
      event,
      frame: recording === undefined ? 0 : frameOf(recording, event.time),
    }));
  }, [recording, kind]);
  const frames = useMemo(() => rows.map(({ frame }) => frame), [rows]);
  const list = useMarkPresent(frames);
  const count = recording?.events.length ?? 0;
  if (count === 0)
    return <p className="soft pad">No wheel left the ground, nothing met a stop or a limit.</p>;
  return (
    <>
      <KindFilter kinds={kinds} kind={kind} onPick={setKind} />
      <ol className="events" ref={list}>
        {rows.map(({ event }) => (
          <li key={`${event.kind} ${event.time} ${eventWords(event)}`}>
            <button type="button" onClick={() => jumpTo(bench, event)}>
              <span className="when">{withUnit(event.time, timeShownIn(showing))}</span>
              <span>{showSentence(eventWords(event), showing)}</span>
            </button>
          </li>
        ))}
      </ol>
      {rows.length === MOST_ROWS ? <p className="soft pad">Only the first {MOST_ROWS} are listed.</p> : null}
    </>
  );
}
