import type { Vec2 } from '../../shared/geometry/vec.ts';
import { outlined } from './chain.ts';

/** Size of the small picture, px of its own, and room round the line. */
const WIDTH = 720;
const HEIGHT = 150;
const EDGE = 12;
/** A line flatter than this is drawn with its heights enlarged, px; and how much at most. */
const FLAT = 50;
const MOST = 100;

interface LineProps {
  /** m. */
  readonly points: readonly Vec2[];
  /** The same line made simpler, drawn over it. */
  readonly simple?: readonly Vec2[] | undefined;
  readonly says: string;
}

/** A small picture of a line of ground. Heights are enlarged where it would be flat otherwise, and it says so. */
export function ProfileLine({ points, simple, says }: LineProps) {
  const [first = { x: 0, z: 0 }] = points;
  const last = points.at(-1) ?? first;
  let [low, high] = [Infinity, -Infinity];
  for (const { z } of points) {
    low = Math.min(low, z);
    high = Math.max(high, z);
  }
  if (!(high >= low)) [low, high] = [0, 0];
  const long = Math.max(last.x - first.x, 1e-9);
  const tall = high - low;
  const scale = Math.min((WIDTH - 2 * EDGE) / long, tall > 0 ? (HEIGHT - 2 * EDGE) / tall : Infinity);
  const wanted = tall > 0 && tall * scale < FLAT ? Math.min(MOST, Math.floor(FLAT / (tall * scale))) : 1;
  const times = Math.max(1, wanted);
  const pathOf = (line: readonly Vec2[]): string =>
    outlined(line, WIDTH)
      .map(({ x, z }, i) => {
        const px = EDGE + (x - first.x) * scale;
        const py = (HEIGHT + tall * scale * times) / 2 - (z - low) * scale * times;
        return `${i === 0 ? 'M' : 'L'}${px.toFixed(1)} ${py.toFixed(1)}`;
      })
      .join('');
  return (
    <figure className="profile-line">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={says}>
        <path d={pathOf(points)} className={simple === undefined ? 'laid-line' : 'drawn-line'} />
        {simple === undefined ? null : <path d={pathOf(simple)} className="laid-line" />}
      </svg>
      <figcaption>
        {says}
        {times > 1 ? `; heights drawn ${times} times as high` : ''}
      </figcaption>
    </figure>
  );
}
