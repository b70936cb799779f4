import { pathText } from '../../shared/path.ts';
import type { Problem } from '../../shared/problem.ts';
import type { View } from '../canvas/camera.ts';
import { inWords, type LaidPiece, problemsOf } from './pieces.ts';
import { spotIn } from './view.ts';

/** The first problem of each piece of ground, for the picture. */
export function Flags({
  pieces,
  problems,
  view,
}: {
  readonly pieces: readonly LaidPiece[];
  readonly problems: readonly Problem[];
  readonly view: View;
}) {
  let count = 0;
  return pieces.map((piece) => {
    const own = problemsOf(problems, piece.path);
    const [first] = own;
    if (first === undefined) return null;
    const { x, y } = spotIn(view, piece.from);
    if (x < -60 || x > view.size.width) return null;
    const lift = 64 + 46 * (count++ % 3);
    return (
      <div
        key={pathText(piece.path)}
        className="ground-flag"
        data-severity={first.severity}
        aria-hidden="true"
        style={{
          left: Math.min(Math.max(x, 8), view.size.width - 250),
          top: Math.max(y - lift, 8),
          height: lift,
        }}
      >
        <p>
          <strong>
            {Number(piece.path[1]) + 1} {piece.title}
          </strong>{' '}
          {inWords(first)}
          {own.length > 1 ? ` (and ${own.length - 1} more)` : ''}
        </p>
      </div>
    );
  });
}
