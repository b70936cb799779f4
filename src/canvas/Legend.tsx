import { shareGradient } from '../charts/colour.ts';
import { palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';
import type { ForcesShown } from './scene.ts';

/** Places of the legend's figures, share of its length. */
const FIGURES = [
  ['off', 0],
  ['½', 0.25],
  ['1', 0.5],
  ['2×', 1],
] as const;

interface LegendProps {
  readonly theme: Look['theme'];
  /** Whether there is a run to compare with. */
  readonly before: boolean;
  readonly forces: ForcesShown;
}

/** How forces in the linkage are drawn. */
function ForceKeys({ ink }: { ink: string }) {
  const heads = (pull: boolean) => (pull ? 'M9 1v6L3 4zM13 1v6l6-3z' : 'M3 1v6l6-3zM19 1v6l-6-3z');
  return (
    <>
      <span className="scene-key">
        <svg width="22" height="8" aria-hidden="true">
          <path d="M1 4h13" stroke={ink} strokeWidth="1.75" fill="none" />
          <path d="M21 4l-8-3.4v6.8z" fill={ink} />
        </svg>
        on what hangs on a pin
      </span>
      {[true, false].map((pull) => (
        <span className="scene-key" key={String(pull)}>
          <svg width="22" height="8" aria-hidden="true">
            <path d={heads(pull)} fill={ink} />
          </svg>
          {pull ? 'pull' : 'push'}
        </span>
      ))}
    </>
  );
}

/** Legend of the load scale, of forces and of faint lines: always in sight over the picture. */
export function Legend({ theme, before, forces }: LegendProps) {
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
      {forces === 'joints' && <ForceKeys ink={palette.ink} />}
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
