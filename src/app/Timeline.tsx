import { type PointerEvent, useEffect, useMemo, useRef } from 'react';
import type { Recording, RunEvent } from '../../shared/recording.ts';
import { formatNumber } from '../../shared/units.ts';
import { type Settings, speeds } from '../store/settings.ts';
import { jumpToEvent } from './actions.ts';
import { Icon } from './Icon.tsx';
import { frameOf } from './moments.ts';
import { NextEvent, Readout, type Scale, stationText, timeText, useScale } from './Readout.tsx';
import { useBench, useDesk, usePlaying, useSettings } from './workbench.ts';

const tall: ReadonlySet<RunEvent['kind']> = new Set(['lift-off', 'stuck', 'tip-over', 'stall', 'skip']);

/** Ticks of all events as one path on a field 1000 wide and 8 high; lift-offs, what ends a run or may break it stand taller. */
function ticksOf(recording: Recording): string {
  const last = Math.max(1, recording.frames - 1);
  return recording.events
    .map(({ kind, time }) => {
      const x = ((frameOf(recording, time) / last) * 1000).toFixed(1);
      return tall.has(kind) ? `M${x} 0V8` : `M${x} 5V8`;
    })
    .join('');
}

/** Moves the thumb of the track, and what a screen reader hears of it, with the playhead; without React. */
function useThumb(scale: Scale | undefined, last: number) {
  const { playhead } = useBench();
  const track = useRef<HTMLDivElement>(null);
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
  return track;
}

/** The way of the run, to be scrubbed: a slider over frames. */
function Track({ scale }: { readonly scale: Scale | undefined }) {
  const { player } = useBench();
  const last = Math.max(0, (scale?.recording.frames ?? 1) - 1);
  const track = useThumb(scale, last);
  const ticks = useMemo(() => (scale === undefined ? '' : ticksOf(scale.recording)), [scale]);
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
