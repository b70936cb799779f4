import { useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { ownFigures } from '../../shared/units.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench } from '../app/workbench.ts';
import { useTracks } from '../charts/Bands.tsx';
import type { ChartProps } from '../charts/chart.ts';
import { lengthShown, timeShownIn } from '../charts/figures.ts';
import { HEIGHT, stripHeight } from '../charts/layout.ts';
import { palettes } from '../charts/palette.ts';
import { StripsChart, stripsHeight } from '../charts/stripsChart.ts';
import { useChart } from '../charts/useChart.ts';
import { stripInWords } from '../charts/words.ts';
import { lineStrips } from './lines.ts';
import { toggleLine, useLines } from './useLines.ts';
import './reading.css';

function watchSize(tell: () => void): () => void {
  window.addEventListener('resize', tell);
  return () => window.removeEventListener('resize', tell);
}

/** The lines that were added, in strips of their own on the same ruler. */
export function Lines({ solved, before, playhead, viewport, look, axis }: ChartProps) {
  const bench = useBench();
  const host = useRef<HTMLElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [parts] = useState(() => new Map<string, HTMLElement>());
  const lines = useLines();
  const tracks = useTracks(solved);
  const showing = look.showing ?? ownFigures;
  const radius = solved?.mechanism.size ?? 1;
  const strip = useSyncExternalStore(watchSize, () => stripHeight(window.innerHeight));
  const strips = useMemo(
    () => (solved === null || tracks === null ? [] : lineStrips(solved, before, lines, showing)),
    [solved, before, tracks, lines, showing],
  );
  const chart = useMemo(() => {
    if (tracks === null || strips.length === 0) return null;
    const live = {
      get cursor() {
        return parts.get('cursor') as HTMLElement;
      },
      get dots() {
        return strips.map((each, k) => each.curves.map((_, c) => parts.get(`${k} ${c}`) as HTMLElement));
      },
    };
    return new StripsChart({
      tracks,
      // Their titles stand beside the names of their lines: the gutter is too narrow for them.
      strips: strips.map((each) => ({ ...each, title: '' })),
      axis,
      palette: palettes[look.theme],
      lengths: lengthShown(radius, showing),
      times: timeShownIn(showing),
      parts: live,
      strip,
    });
  }, [tracks, strips, axis, look.theme, radius, showing, parts, strip]);
  useChart(chart, host, canvas, playhead, viewport);
  const missing = lines.length - strips.reduce((sum, { offers }) => sum + offers.length, 0);
  if (lines.length === 0 || tracks === null) return null;

  const keep = (key: string) => (element: HTMLElement | null) => {
    if (element === null) parts.delete(key);
    else parts.set(key, element);
  };
  const palette = palettes[look.theme];
  return (
    <figure
      className="chart strips lines"
      aria-label="Lines that were added"
      ref={host}
      style={{ minHeight: stripsHeight(strips.length, strip), color: palette.ink }}
    >
      <canvas ref={canvas} />
      {strips.map(({ title, offers }, k) => (
        <div
          key={`${title} ${offers[0]?.line}`}
          className="line-names"
          style={{ top: 1 + k * (strip + HEIGHT.stripGap) }}
        >
          <b>{title}</b>
          {offers.map(({ line, title: name, of }) => (
            <button
              key={line}
              type="button"
              title={`Take the line '${name}' away`}
              aria-label={`Take the line '${name}' away`}
              onClick={() => toggleLine(bench, line)}
            >
              {of}
              <Icon name="cross" />
            </button>
          ))}
        </div>
      ))}
      {strips.flatMap((each, k) =>
        each.curves.map((curve, c) => (
          <span
            key={`${each.title} ${each.offers[c]?.line ?? curve.name}`}
            className="strip-dot"
            ref={keep(`${k} ${c}`)}
            style={{ background: palette.accent, borderColor: palette.paper }}
          />
        )),
      )}
      <span className="chart-cursor" ref={keep('cursor')} style={{ background: palette.accent }} />
      {missing > 0 ? (
        <p className="soft line-missing">
          {missing === 1 ? 'One line is' : `${missing} lines are`} not in this run.
        </p>
      ) : null}
      <figcaption className="chart-words">
        {strips.map((each) => stripInWords(each.title, each.shown, each.curves)).join(' ')}
      </figcaption>
    </figure>
  );
}
