import { type PointerEvent, useEffect, useMemo, useRef } from 'react';
import { column, type Recording } from '../../shared/recording.ts';
import { formatNumber } from '../../shared/units.ts';
import { figure, lengthShown, type Shown, timeShown } from '../charts/figures.ts';
import { eventWords } from '../panels/words.ts';
import type { Solved } from '../solved.ts';
import { type Settings, speeds } from '../store/settings.ts';
import { jumpToEvent } from './actions.ts';
import { Icon } from './Icon.tsx';
import { eventAfter, frameOf } from './moments.ts';
import { useBench, useDesk, usePlaying, useSettings } from './workbench.ts';

/** How the readouts of a run are written. */
interface Scale {
  readonly recording: Recording;
  readonly station: Float64Array;
  readonly time: Float64Array;
  readonly length: Shown;
}

function useScale(solved: Solved | undefined): Scale | undefined {
  return useMemo(() => {
    if (solved === undefined) return undefined;
    const { recording, mechanism } = solved;
    return {
      recording,
      station: column(recording, 'station'),
      time: column(recording, 'time'),
      length: lengthShown(mechanism.size),
    };
  }, [solved]);
}

const timeText = ({ time }: Scale, frame: number): string => figure(time[frame] ?? 0, timeShown);
const stationText = ({ station, length }: Scale, frame: number): string =>
  figure(station[frame] ?? 0, length);

/** Room for the longest figure of a run, so that nothing moves while it plays. */
function widthOf(scale: Scale | undefined, text: typeof timeText): string {
  if (scale === undefined) return '5ch';
  const ends = [0, scale.recording.frames - 1].map((frame) => text(scale, frame).length);
  return `${Math.max(...ends)}ch`;
}

/** Ticks of all events as one path on a field 1000 wide and 8 high; lift-offs and what ends a run stand taller. */
function ticksOf(recording: Recording): string {
  const last = Math.max(1, recording.frames - 1);
  return recording.events
    .map(({ kind, time }) => {
      const x = ((frameOf(recording, time) / last) * 1000).toFixed(1);
      return kind === 'lift-off' || kind === 'stuck' || kind === 'tip-over' ? `M${x} 0V8` : `M${x} 5V8`;
    })
    .join('');
}

/** The way of the run, to be scrubbed: a slider over frames. It moves with the playhead without React. */
function Track({ scale }: { readonly scale: Scale | undefined }) {
  const { player, playhead } = useBench();
  const track = useRef<HTMLDivElement>(null);
  const last = Math.max(0, (scale?.recording.frames ?? 1) - 1);
  const ticks = useMemo(() => (scale === undefined ? '' : ticksOf(scale.recording)), [scale]);

  useEffect(() => {
    const show = (frame: number): void => {
      const element = track.current;
      if (element === null) return;
      element.style.setProperty('--done', String(last === 0 ? 0 : Math.min(1, frame / last)));
      element.setAttribute('aria-valuenow', String(frame));
      if (scale === undefined) return;
      const words = `${timeText(scale, frame)} s, station ${stationText(scale, frame)} ${scale.length.unit}`;
      element.setAttribute('aria-valuetext', words);
    };
    show(playhead.frame);
    return playhead.watch(show);
  }, [playhead, scale, last]);

  const scrub = (event: PointerEvent<HTMLDivElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    player.pause();
    player.seek(((event.clientX - box.left) / box.width) * last);
  };
  return (
    <div
      ref={track}
      className="track"
      role="slider"
      tabIndex={0}
      aria-label="Moment of the run"
      aria-valuemin={0}
      aria-valuemax={last}
      aria-valuenow={0}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        scrub(event);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) scrub(event);
      }}
    >
      <svg className="track-ticks" viewBox="0 0 1000 8" preserveAspectRatio="none" aria-hidden="true">
        <path d={ticks} />
      </svg>
      <div className="track-line">
        <div className="track-done" />
      </div>
      <div className="track-thumb" />
    </div>
  );
}

/** Time, station and frame on show, rewritten frame by frame without React. */
function Readout({ scale }: { readonly scale: Scale | undefined }) {
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
function NextEvent({ scale }: { readonly scale: Scale | undefined }) {
  const bench = useBench();
  const text = useRef<HTMLSpanElement>(null);
  const { playhead } = bench;
  useEffect(() => {
    const show = (frame: number): void => {
      if (text.current === null) return;
      const next = scale === undefined ? undefined : eventAfter(scale.recording, frame);
      const none = scale === undefined ? '' : 'no further event';
      const words = next === undefined ? none : eventWords(next.event);
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

const speedWords = new Map<number, string>([
  [1 / 8, '⅛'],
  [1 / 4, '¼'],
  [1 / 2, '½'],
]);

function SpeedPicker() {
  const { settings } = useBench();
  const speed = useSettings((state) => state.speed);
  return (
    <label className="speed" title="Playing speed ([ and ])">
      <span className="unseen">Speed</span>
      <select
        value={String(speed)}
        onChange={(event) =>
          settings.setState({ speed: Number(event.currentTarget.value) as Settings['speed'] })
        }
      >
        {speeds.map((choice) => (
          <option key={choice} value={String(choice)}>
            {speedWords.get(choice) ?? formatNumber(choice)}×
          </option>
        ))}
      </select>
    </label>
  );
}

interface StepProps {
  readonly says: string;
  readonly keys: string;
  readonly icon: 'frameBack' | 'frameOn' | 'eventBack' | 'eventOn';
  readonly ready: boolean;
  readonly onPress: () => void;
}

function StepButton({ says, keys, icon, ready, onPress }: StepProps) {
  return (
    <button
      type="button"
      className="button icon-only bare"
      aria-label={says}
      title={`${says} (${keys})`}
      disabled={!ready}
      onClick={onPress}
    >
      <Icon name={icon} />
    </button>
  );
}

/** The bar under the picture: play, scrub, step, and where the playhead stands. */
export function Timeline() {
  const bench = useBench();
  const { player } = bench;
  const solved = useDesk((state) => state.solved);
  const scale = useScale(solved);
  const playing = usePlaying();
  const ready = solved !== undefined && solved.recording.frames > 1;
  return (
    <section className="timeline" aria-label="Timeline">
      <div className="play-row">
        <StepButton
          says="One frame back"
          keys="←"
          icon="frameBack"
          ready={ready}
          onPress={() => player.step(-1)}
        />
        <button
          type="button"
          className="button icon-only play"
          aria-label={playing ? 'Pause' : 'Play'}
          title={playing ? 'Pause (Space)' : 'Play (Space)'}
          disabled={!ready}
          onClick={() => player.toggle()}
        >
          <Icon name={playing ? 'pause' : 'play'} />
        </button>
        <StepButton
          says="One frame on"
          keys="→"
          icon="frameOn"
          ready={ready}
          onPress={() => player.step(1)}
        />
      </div>
      <Track scale={scale} />
      <div className="moment-row">
        <Readout scale={scale} />
        <StepButton
          says="Previous event"
          keys="P"
          icon="eventBack"
          ready={ready}
          onPress={() => jumpToEvent(bench, -1)}
        />
        <StepButton
          says="Next event"
          keys="N"
          icon="eventOn"
          ready={ready}
          onPress={() => jumpToEvent(bench, 1)}
        />
        <NextEvent scale={scale} />
        <SpeedPicker />
      </div>
    </section>
  );
}
