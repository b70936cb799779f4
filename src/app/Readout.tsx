import { useEffect, useMemo, useRef } from 'react';
import { column, type Recording } from '../../shared/recording.ts';
import { type Showing, showSentence } from '../../shared/units.ts';
import { figure, lengthShown, type Shown, timeShownIn } from '../charts/figures.ts';
import { eventWords } from '../panels/words.ts';
import type { Solved } from '../solved.ts';
import { eventAfter } from './moments.ts';
import { useBench, useShowing } from './workbench.ts';

/** How the readouts of a run are written. */
export interface Scale {
  readonly recording: Recording;
  readonly station: Float64Array;
  readonly time: Float64Array;
  readonly length: Shown;
  readonly showing: Showing;
}

/** Columns and units that the readouts of a run are written from. */
export function useScale(solved: Solved | undefined): Scale | undefined {
  const showing = useShowing();
  return useMemo(() => {
    if (solved === undefined) return undefined;
    const { recording, mechanism } = solved;
    return {
      recording,
      station: column(recording, 'station'),
      time: column(recording, 'time'),
      length: lengthShown(mechanism.size, showing),
      showing,
    };
  }, [solved, showing]);
}

/** Time of a frame, s, as it is shown. */
export const timeText = ({ time, showing }: Scale, frame: number): string =>
  figure(time[frame] ?? 0, timeShownIn(showing));
/** The vehicle's station in a frame, as it is shown. */
export const stationText = ({ station, length }: Scale, frame: number): string =>
  figure(station[frame] ?? 0, length);

/** Room for the longest figure of a run, so that nothing moves while it plays. */
function widthOf(scale: Scale | undefined, text: typeof timeText): string {
  if (scale === undefined) return '5ch';
  const ends = [0, scale.recording.frames - 1].map((frame) => text(scale, frame).length);
  return `${Math.max(...ends)}ch`;
}

/** Time, station and frame on show, rewritten frame by frame without React. */
export function Readout({ scale }: { readonly scale: Scale | undefined }) {
  const { playhead } = useBench();
  const time = useRef<HTMLElement>(null);
  const station = useRef<HTMLElement>(null);
  const frame = useRef<HTMLElement>(null);
  const frames = scale?.recording.frames ?? 0;

  useEffect(() => {
    const show = (now: number): void => {
      if (time.current !== null) time.current.textContent = scale === undefined ? '–' : timeText(scale, now);
      if (station.current !== null)
        station.current.textContent = scale === undefined ? '–' : stationText(scale, now);
      if (frame.current !== null) frame.current.textContent = frames === 0 ? '–' : String(now + 1);
    };
    show(playhead.frame);
    return playhead.watch(show);
  }, [playhead, scale, frames]);

  return (
    <dl className="readout">
      <div>
        <dt>time</dt>
        <dd>
          <b ref={time} style={{ width: widthOf(scale, timeText) }} /> s
        </dd>
      </div>
      <div>
        <dt>station</dt>
        <dd>
          <b ref={station} style={{ width: widthOf(scale, stationText) }} /> {scale?.length.unit ?? ''}
        </dd>
      </div>
      <div>
        <dt>frame</dt>
        <dd>
          <b ref={frame} style={{ width: `${String(frames).length}ch` }} />
          <span className="of"> of {frames}</span>
        </dd>
      </div>
    </dl>
  );
}

/** What happens next, in words; changes only when the playhead passes an event. */
export function NextEvent({ scale }: { readonly scale: Scale | undefined }) {
  const bench = useBench();
  const text = useRef<HTMLSpanElement>(null);
  const { playhead } = bench;
  useEffect(() => {
    const show = (frame: number): void => {
      if (text.current === null) return;
      const next = scale === undefined ? undefined : eventAfter(scale.recording, frame);
      const none = scale === undefined ? '' : 'no further event';
      const words =
        next === undefined || scale === undefined
          ? none
          : showSentence(eventWords(next.event), scale.showing);
      if (text.current.textContent === words) return;
      text.current.textContent = words;
      text.current.title = words;
    };
    show(playhead.frame);
    return playhead.watch(show);
  }, [playhead, scale]);
  return (
    <p className="next-event">
      <span className="soft">next </span>
      <span ref={text} />
    </p>
  );
}
