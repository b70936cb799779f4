import { useEffect, useId, useRef, useState } from 'react';
import type { Look } from '../solved.ts';
import { withUnit } from './figures.ts';
import {
  type LimitsCurve,
  type LimitsFrame,
  limitAt,
  limitsFrame,
  limitsInWords,
  segmentsOf,
  todayWords,
} from './limits.ts';
import { type Palette, palettes } from './palette.ts';
import './limits.css';

export interface LimitsPlotProps extends LimitsCurve {
  readonly look: Look;
}

/** Width of an element, px, as it changes. */
function useWidth(): readonly [React.RefObject<HTMLElement | null>, number] {
  const host = useRef<HTMLElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const sizes = new ResizeObserver(() => setWidth(element.clientWidth));
    sizes.observe(element);
    setWidth(element.clientWidth);
    return () => sizes.disconnect();
  }, []);
  return [host, width];
}

/** The limit of one obstacle as a curve over grip or mass, with today's ground marked; as a table on demand. */
export function LimitsPlot({ look, ...curve }: LimitsPlotProps) {
  const [host, width] = useWidth();
  const [table, setTable] = useState(false);
  const palette = palettes[look.theme];
  const words = limitsInWords(curve);
  return (
    <figure className="limit-chart" ref={host} style={{ color: palette.ink }}>
      <div className="limit-chart-head">
        <span className="limit-chart-title">{curve.title}</span>
        <button
          type="button"
          aria-pressed={table}
          aria-label={`${curve.title}: ${table ? 'show as a curve' : 'show as a table'}`}
          style={{ color: palette.soft }}
          onClick={() => setTable(!table)}
        >
          {table ? 'as a curve' : 'as a table'}
        </button>
      </div>
      {table ? (
        <LimitsTable curve={curve} palette={palette} />
      ) : (
        width > 0 && <Curve curve={curve} frame={limitsFrame(curve, width)} palette={palette} />
      )}
      <figcaption style={{ color: palette.soft }}>{words}</figcaption>
    </figure>
  );
}

interface CurveProps {
  readonly curve: LimitsCurve;
  readonly frame: LimitsFrame;
  readonly palette: Palette;
}

/** Axes, the curve, what stops the vehicle along it, and today's place. */
function Curve({ curve, frame, palette }: CurveProps) {
  const { width, height, left, right, top, bottom } = frame;
  const path = curve.points
    .map((p, i) => `${i === 0 ? 'M' : 'L'}${frame.x(p.at)} ${frame.y(p.limit)}`)
    .join('');
  const hatch = useId();
  const first = frame.x(curve.points[0]?.at ?? 0);
  const last = frame.x(curve.points.at(-1)?.at ?? 0);
  return (
    <svg
      width={width}
      height={height}
      className="limit-chart-plot"
      role="img"
      aria-label={`${curve.title}, curve`}
    >
      <defs>
        <pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7" stroke={palette.hatch} strokeWidth="1" />
        </pattern>
      </defs>
      {curve.points.length > 1 && (
        <path d={`${path}L${last} ${top}L${first} ${top}Z`} fill={`url(#${hatch})`} opacity="0.7" />
      )}
      <g stroke={palette.hair} strokeWidth="1">
        {frame.sizes.map((tick) => (
          <path key={tick.label} d={`M${left} ${tick.pixel}H${width - right}`} />
        ))}
        <path d={`M${left} ${height - bottom + 0.5}H${width - right}`} stroke={palette.soft} />
      </g>
      <g className="limit-chart-figures" fill={palette.soft}>
        {frame.sizes.map((tick) => (
          <text key={tick.label} x={left - 6} y={tick.pixel + 3.5} textAnchor="end">
            {tick.label}
          </text>
        ))}
        {frame.places.map((tick) => (
          <text key={tick.label} x={tick.pixel} y={height - bottom + 15} textAnchor="middle">
            {tick.label}
          </text>
        ))}
      </g>
      <g className="limit-chart-words" fill={palette.soft}>
        <text x={left - 6} y={top - 10} textAnchor="end">
          {curve.size.unit}
        </text>
        <text x={width - right} y={height - 3} textAnchor="end">
          {`${curve.along.title}${curve.along.unit === '' ? '' : `, ${curve.along.unit}`}`}
        </text>
      </g>
      <path d={path} fill="none" stroke={palette.ink} strokeWidth="1.75" strokeLinejoin="round" />
      <Stoppers curve={curve} frame={frame} palette={palette} />
      <Today curve={curve} frame={frame} palette={palette} />
    </svg>
  );
}

/** What stops the vehicle along each stretch of the curve, written over it where there is room. */
function Stoppers({ curve, frame, palette }: CurveProps) {
  return (
    <g
      className="limit-chart-words"
      fill={palette.ink}
      stroke={palette.panel}
      strokeWidth="3"
      paintOrder="stroke"
    >
      {segmentsOf(curve, frame).map(({ words, x, y, from, edge }) => (
        <g key={from}>
          {edge && (
            <path
              d={`M${from} ${frame.y(limitAt(curve.points, frame.at(from))) - 4}v8`}
              stroke={palette.ink}
              strokeWidth="1"
            />
          )}
          {words !== '' && (
            <text x={x} y={y} textAnchor="middle">
              {words}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** Today's grip or mass as a line, the limit there as a ring, and the obstacle on today's ground as a dot. */
function Today({ curve, frame, palette }: CurveProps) {
  const { at, size } = curve.today;
  if (curve.points.length === 0 || at < frame.from || at > frame.to) return null;
  const x = frame.x(at);
  const words = size === undefined ? '' : `today ${withUnit(size, curve.size)}`;
  const place = words === '' ? undefined : todayWords(curve, words, frame, segmentsOf(curve, frame));
  return (
    <g className="limit-chart-words">
      <path d={`M${x} ${frame.top}V${frame.height - frame.bottom}`} stroke={palette.accent} strokeWidth="1" />
      <circle
        cx={x}
        cy={frame.y(limitAt(curve.points, at))}
        r="4"
        fill={palette.panel}
        stroke={palette.ink}
        strokeWidth="1.75"
      />
      {size !== undefined && size <= frame.most && (
        <>
          <circle cx={x} cy={frame.y(size)} r="4.5" fill={palette.accent} />
          {place !== undefined && (
            <text
              x={place.x}
              y={place.y}
              fill={palette.ink}
              stroke={palette.panel}
              strokeWidth="3"
              paintOrder="stroke"
            >
              {words}
            </text>
          )}
        </>
      )}
    </g>
  );
}

function LimitsTable({ curve, palette }: { curve: LimitsCurve; palette: Palette }) {
  const { along, size, points, title } = curve;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it.
    <section className="limit-chart-table" aria-label={`${title} as a table`} tabIndex={0}>
      <table>
        <thead style={{ color: palette.soft, background: palette.panel }}>
          <tr>
            <th scope="col">{along.title}</th>
            <th scope="col">up to</th>
            <th scope="col">stopped by</th>
          </tr>
        </thead>
        <tbody>
          {points.map((p) => (
            <tr key={p.at}>
              <td>{withUnit(p.at, along).trim()}</td>
              <td>{withUnit(p.limit, size)}</td>
              <td className="limit-chart-by">{p.by ?? 'nothing up to there'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
