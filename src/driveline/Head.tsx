import type { ReactNode } from 'react';
import { jumpTo } from '../app/actions.ts';
import { useBench, useFigures } from '../app/workbench.ts';
import { cssOf, shareColour } from '../charts/colour.ts';
import { type Palette, palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';
import { shareWords } from './look.ts';
import type { Tree } from './tree.ts';
import type { Worst } from './uses.ts';

interface HeadProps {
  readonly look: Look;
  readonly tree: Tree;
  readonly worst: ReadonlyMap<number, Worst>;
  readonly broken: ReadonlyMap<number, string>;
  readonly open: boolean;
  readonly onOpen: () => void;
  /** Wants a part selected. */
  readonly onWorst: (index: number) => void;
  /** Nothing moves: what is told is the worst of the crossing. */
  readonly still: boolean;
  readonly children: ReactNode;
}

const gradient = (palette: Palette): string =>
  `linear-gradient(to right, ${[0, 0.25, 0.5, 0.75, 1].map((use) => cssOf(shareColour(1 + use, palette))).join(', ')})`;

/** What the colours mean. */
function Legend({ palette, still }: { readonly palette: Palette; readonly still: boolean }) {
  return (
    <span className="drive-legend">
      <span className="drive-legend-of">{still ? 'worst use' : 'use here'}</span>
      <span className="drive-scale" style={{ background: gradient(palette) }} />
      100 %
      <span className="drive-scale drive-scale-over" style={{ background: palette.low }} />
      over
      <span className="drive-scale drive-scale-unknown" />
      unknown
    </span>
  );
}

/** The part that is nearest to its limit or past it, or first of all one that cannot be built. */
function Verdict({ tree, worst, broken, onWorst }: Pick<HeadProps, 'tree' | 'worst' | 'broken' | 'onWorst'>) {
  const bench = useBench();
  const { quantity } = useFigures();
  const [first] = broken;
  if (first !== undefined)
    return (
      <button type="button" className="jump drive-verdict" onClick={() => onWorst(first[0])}>
        <b className="over">Broken: {tree.parts[first[0]]?.name}</b>
        <span className="soft"> {first[1]}</span>
      </button>
    );
  const known = [...worst].filter(([, { use }]) => use !== null);
  const most = known.sort(([, a], [, b]) => (b.use ?? 0) - (a.use ?? 0))[0];
  if (most === undefined) return <span className="drive-verdict" />;
  const [index, { use, line }] = most;
  return (
    <button
      type="button"
      className="jump drive-verdict"
      title="Go to this moment and this part"
      onClick={() => {
        onWorst(index);
        if (line.moment !== undefined) jumpTo(bench, line.moment);
      }}
    >
      <b className={(use ?? 0) > 1 ? 'over' : undefined}>
        {line.of} {shareWords(use)}
      </b>
      {line.moment === undefined ? null : (
        <span className="soft"> at its worst, {quantity(line.moment.station, 'length')}</span>
      )}
    </button>
  );
}

/** The head of the strip: what it says in short, what its colours mean, what can be done. */
export function Head({ look, tree, worst, broken, open, onOpen, onWorst, still, children }: HeadProps) {
  return (
    <div className="drive-head">
      <h2>
        <button
          type="button"
          className="drive-fold"
          aria-expanded={open}
          title={open ? 'Fold the drive line away' : 'Show the drive line'}
          onClick={onOpen}
        >
          Drive line
        </button>
      </h2>
      {still && broken.size === 0 ? (
        <span className="drive-verdict" />
      ) : (
        <Verdict tree={tree} worst={worst} broken={broken} onWorst={onWorst} />
      )}
      {open ? <Legend palette={palettes[look.theme]} still={still} /> : null}
      {children}
    </div>
  );
}
