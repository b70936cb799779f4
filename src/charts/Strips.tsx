import { type ReactNode, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { ownFigures } from '../../shared/units.ts';
import { useTracks } from './Bands.tsx';
import type { ChartProps } from './chart.ts';
import { lengthShown, timeShownIn } from './figures.ts';
import { stripHeight } from './layout.ts';
import { type Palette, palettes } from './palette.ts';
import { stripsOf } from './strip.ts';
import { StripsChart, stripsHeight } from './stripsChart.ts';
import { type StripTable, tableOf } from './table.ts';
import { useChart } from './useChart.ts';
import { stripInWords } from './words.ts';
import './charts.css';

function watchSize(tell: () => void): () => void {
  window.addEventListener('resize', tell);
  return () => window.removeEventListener('resize', tell);
}

/** Height of one strip in this window, px. */
function useStripHeight(): number {
  return useSyncExternalStore(watchSize, () => stripHeight(window.innerHeight));
}

function Table({ table, palette }: { table: StripTable; palette: Palette }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it.
    <section className="strips-table" aria-label="Strips as a table" tabIndex={0}>
      <table>
        <thead>
          <tr>
            {table.heads.map((head) => (
              <th key={head} scope="col" style={{ background: palette.paper }}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map(({ frame, cells }) => (
            <tr key={frame}>
              {cells.map((cell, i) => (
                <td key={table.heads[i]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface StripsProps extends ChartProps {
  /** More to press, beside the switch between curves and table. */
  readonly tools?: ReactNode;
}

/** Wheel loads, travel and pitch over the shared ruler or over time, as curves or as a table. */
export function Strips({ solved, before, playhead, viewport, look, axis, tools }: StripsProps) {
  const host = useRef<HTMLElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [parts] = useState(() => new Map<string, HTMLElement>());
  const [table, setTable] = useState(false);
  const tracks = useTracks(solved);
  const earlier = useTracks(before);
  const radius = solved?.mechanism.size ?? 1;
  const showing = look.showing ?? ownFigures;
  const strips = useMemo(
    () => (tracks === null ? [] : stripsOf(tracks, earlier, radius, showing)),
    [tracks, earlier, radius, showing],
  );
  const strip = useStripHeight();
  const chart = useMemo(() => {
    if (tracks === null || table) return null;
    // Read when the chart moves, not now: the elements are put into the page after this.
    const live = {
      get cursor() {
        return parts.get('cursor') as HTMLElement;
      },
      get dots() {
        return strips.map((strip, k) => strip.curves.map((_, c) => parts.get(`${k} ${c}`) as HTMLElement));
      },
    };
    return new StripsChart({
      tracks,
      strips,
      axis,
      palette: palettes[look.theme],
      lengths: lengthShown(radius, showing),
      times: timeShownIn(showing),
      parts: live,
      strip,
    });
  }, [tracks, strips, axis, look.theme, radius, showing, parts, table, strip]);
  useChart(chart, host, canvas, playhead, viewport);
  if (tracks === null) return null;

  const keep = (key: string) => (element: HTMLElement | null) => {
    if (element === null) parts.delete(key);
    else parts.set(key, element);
  };
  const palette = palettes[look.theme];
  return (
    <figure
      className="chart strips"
      ref={host}
      style={{ minHeight: stripsHeight(strips.length, strip), color: palette.ink }}
    >
      <div className="strips-tools" style={{ color: palette.soft }}>
        {tools}
        <button type="button" aria-pressed={table} onClick={() => setTable(!table)}>
          {table ? 'show as curves' : 'show as table'}
        </button>
      </div>
      {table ? (
        <Table
          table={tableOf(tracks, strips, viewport.window, lengthShown(radius, showing), timeShownIn(showing))}
          palette={palette}
        />
      ) : (
        <>
          <canvas ref={canvas} />
          {strips.flatMap((strip, k) =>
            strip.curves.map((curve, c) => (
              <span
                key={`${strip.title} ${curve.name}`}
                className="strip-dot"
                ref={keep(`${k} ${c}`)}
                style={{ background: palette.accent, borderColor: palette.paper }}
              />
            )),
          )}
          <span className="chart-cursor" ref={keep('cursor')} style={{ background: palette.accent }} />
        </>
      )}
      <figcaption className="chart-words">
        {strips.map((strip) => stripInWords(strip.title, strip.shown, strip.curves)).join(' ')}
      </figcaption>
    </figure>
  );
}
