import { useMemo, useRef, useState } from 'react';
import { ownFigures } from '../../shared/units.ts';
import { type BandParts, BandsChart, bandsHeight, bandTop } from './bandsChart.ts';
import type { ChartProps } from './chart.ts';
import { forceShown, lengthShown, timeShownIn } from './figures.ts';
import { bandHeight, GUTTER } from './layout.ts';
import { palettes } from './palette.ts';
import { type Tracks, tracksOf } from './tracks.ts';
import { useChart } from './useChart.ts';
import { bandsInWords } from './words.ts';
import './charts.css';

/** Tracks of a run, looked up again only for another run. */
export function useTracks(solved: ChartProps['solved']): Tracks | null {
  return useMemo(() => {
    if (solved === null || solved.recording.frames === 0) return null;
    return tracksOf(
      solved.recording,
      solved.mechanism.wheels.map((w) => w.axle),
    );
  }, [solved]);
}

/** Bands at least this high have their wheel's load under its name, px. */
const ROOM_FOR_LOADS = 24;

function meanStanding(tracks: Tracks): number {
  return tracks.wheels.reduce((sum, w) => sum + w.standing, 0) / Math.max(1, tracks.wheels.length);
}

/** A band per wheel over its own station (or over time): share of the standing load in colour, hatched while off the ground. */
export function Bands({ solved, before, playhead, viewport, look, axis }: ChartProps) {
  const host = useRef<HTMLElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const tracks = useTracks(solved);
  const earlier = useTracks(before);
  const [parts] = useState(() => new Map<string, HTMLElement>());
  const showing = look.showing ?? ownFigures;
  const chart = useMemo(() => {
    if (tracks === null) return null;
    const at = (key: string) => parts.get(key) as HTMLElement;
    // Read when the chart moves, not now: the elements are put into the page after this.
    const live: BandParts = {
      get cursor() {
        return at('cursor');
      },
      get here() {
        return tracks.wheels.map((w) => at(`here ${w.index}`));
      },
      get loads() {
        return tracks.wheels.map((w) => at(`load ${w.index}`));
      },
    };
    const force = forceShown(meanStanding(tracks), showing);
    return new BandsChart({
      tracks,
      before: earlier,
      axis,
      palette: palettes[look.theme],
      force,
      times: timeShownIn(showing),
      parts: live,
    });
  }, [tracks, earlier, axis, look.theme, showing, parts]);
  useChart(chart, host, canvas, playhead, viewport);
  if (tracks === null || solved === null) return null;

  const keep = (key: string) => (element: HTMLElement | null) => {
    if (element === null) parts.delete(key);
    else parts.set(key, element);
  };
  const count = tracks.wheels.length;
  const height = bandHeight(count);
  const palette = palettes[look.theme];
  const force = forceShown(meanStanding(tracks), showing);
  return (
    <figure
      className="chart bands"
      ref={host}
      style={{ height: bandsHeight(count, axis), color: palette.ink }}
    >
      <canvas ref={canvas} />
      {tracks.wheels.map((wheel, i) => (
        <div
          key={wheel.name}
          className="band-head"
          title={`${wheel.name}, axle line ${wheel.axle}`}
          style={{ top: bandTop(i, count, axis), height, width: GUTTER.left - 8 }}
        >
          <span className="band-axle" style={{ color: palette.soft }}>
            {wheel.axle}
          </span>
          <span className="band-words">
            <span className="band-name">{wheel.name}</span>
            {height >= ROOM_FOR_LOADS && (
              <span className="band-load" style={{ color: palette.soft }} ref={keep(`load ${wheel.index}`)} />
            )}
          </span>
        </div>
      ))}
      {tracks.wheels.map((wheel, i) => (
        <span
          key={wheel.name}
          className="band-here"
          ref={keep(`here ${wheel.index}`)}
          style={{
            top: bandTop(i, count, axis) - 2,
            height: height + 4,
            background: palette.accent,
            outlineColor: palette.paper,
          }}
        />
      ))}
      <span className="chart-cursor" ref={keep('cursor')} style={{ background: palette.accent }} />
      <figcaption className="chart-words">
        Share of the standing load per wheel over {axis === 'station' ? "each wheel's own station" : 'time'}.{' '}
        {bandsInWords(tracks, force, lengthShown(solved.mechanism.size, showing))}
      </figcaption>
    </figure>
  );
}
