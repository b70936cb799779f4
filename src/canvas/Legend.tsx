import { shareGradient } from '../charts/colour.ts';
import { palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';

/** Places of the legend's figures, share of its length. */
const FIGURES = [
  ['off', 0],
  ['½', 0.25],
  ['1', 0.5],
  ['2×', 1],
] as const;

/** Legend of the load scale and of faint lines: always in sight over the picture. `before`: whether there is a run to compare with. */
export function Legend({ theme, before }: { theme: Look['theme']; before: boolean }) {
  const palette = palettes[theme];
  return (
    <div className="scene-legend" style={{ color: palette.soft }}>
      <span className="scene-key">
        <svg width="22" height="8" aria-hidden="true">
          <line
            x1="0"
            y1="4"
            x2="22"
            y2="4"
            stroke={palette.faint}
            strokeWidth="1.25"
            strokeDasharray="5 4"
          />
        </svg>
        standing
      </span>
      {before && (
        <span className="scene-key">
          <svg width="22" height="8" aria-hidden="true">
            <line x1="0" y1="4" x2="22" y2="4" stroke={palette.faint} strokeWidth="1" />
          </svg>
          run before
        </span>
      )}
      <span className="scene-share">
        <span>share of standing load</span>
        <span className="scene-scale">
          <span
            className="scene-ramp"
            style={{ background: shareGradient(palette), borderColor: palette.hair }}
          >
            <span
              className="scene-off"
              style={{
                background: `repeating-linear-gradient(135deg, ${palette.low} 0 3px, ${palette.paper} 3px 4.5px)`,
              }}
            />
          </span>
          {FIGURES.map(([words, at]) => (
            <span key={words} className="scene-figure" style={{ left: `${at * 100}%` }}>
              {words}
            </span>
          ))}
        </span>
      </span>
    </div>
  );
}
