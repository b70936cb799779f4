import { type KeyboardEvent, type RefObject, useEffect, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { formatQuantity } from '../../shared/units.ts';
import { useBench, useDesk, useDocument, useNotice, useSelection } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import { asPoints, reorderEntry } from '../edits/ground.ts';
import { kindsFor } from '../edits/sample.ts';
import type { GroundTool } from '../store/notice.ts';
import { samePath, select } from '../store/selection.ts';
import { inWords, type LaidPiece, problemsOf } from './pieces.ts';
import { useOrder } from './useOrder.ts';
import { usePieces } from './usePieces.ts';
import './groundwork.css';

const length = (si: number): string => formatQuantity(si, 'length', 3);

/** One piece in the list: its grip, its name, where it lies, what is wrong with it. */
function Row({
  piece,
  grip,
  mark,
}: {
  readonly piece: LaidPiece;
  readonly grip: ReturnType<ReturnType<typeof useOrder>['gripOf']>;
  readonly mark: ReturnType<ReturnType<typeof useOrder>['markOf']>;
}) {
  const { selection } = useBench();
  const { remove } = useBuild();
  const entry = useSelection((state) => state.entry);
  const problems = useDesk((state) => state.problems);
  const own = problemsOf(problems, piece.path);
  const [first] = own;
  const number = Number(piece.path[1]) + 1;
  const rise = piece.to.z - piece.from.z;
  const where = `${length(piece.to.x - piece.from.x)}${Math.abs(rise) > 1e-9 ? `, ${rise > 0 ? '+' : '−'}${length(Math.abs(rise))}` : ''}`;
  return (
    <li
      data-mark={mark}
      data-selected={samePath(entry, piece.path)}
      data-severity={first?.severity}
      onPointerEnter={() => selection.setState({ under: piece.path })}
      onPointerLeave={() => selection.setState({ under: undefined })}
    >
      <button
        type="button"
        className="grip"
        aria-label={`Order of ${piece.title} ${number}: arrow keys`}
        title="Drag, or arrow keys"
        {...grip}
      >
        {number}
      </button>
      <button
        type="button"
        className="ground-piece"
        aria-pressed={samePath(entry, piece.path)}
        onClick={() => select(selection, piece.path)}
      >
        <span className="ground-title">{piece.title}</span>
        <span className="kind">{where}</span>
        {first === undefined ? null : (
          <span className="ground-why">
            {first.severity === 'error' ? 'Problem: ' : 'Note: '}
            {inWords(first)}
            {own.length > 1 ? ` (and ${own.length - 1} more)` : ''}
          </span>
        )}
      </button>
      <button
        type="button"
        className="button small bare"
        aria-label={`Remove ${piece.title} ${number}`}
        title="Remove"
        onClick={() => remove(piece.path)}
      >
        ×
      </button>
    </li>
  );
}

/** Adds a piece of a kind, in a size that suits the wheels. */
function AddPiece() {
  const { add } = useBuild();
  const kinds = kindsFor(['ground']);
  const [kind, setKind] = useState(kinds.find((each) => each.kind === 'step')?.kind ?? '');
  return (
    <span className="ground-add">
      <select
        aria-label="Kind of the new piece"
        value={kind}
        onChange={({ currentTarget }) => setKind(currentTarget.value)}
      >
        {kinds.map((each) => (
          <option key={each.kind} value={each.kind}>
            {each.title}
          </option>
        ))}
      </select>
      <button type="button" className="button" onClick={() => add(['ground'], kind)}>
        Add piece
      </button>
    </span>
  );
}

const TOOLS: readonly { readonly tool: GroundTool; readonly title: string; readonly says: string }[] = [
  { tool: 'draw', title: 'Draw', says: 'Draw a line by hand (W)' },
  { tool: 'chain', title: 'Chain', says: 'Lay a list of obstacles with sizes' },
  { tool: 'import', title: 'CSV', says: 'Take in a measured profile from a file' },
];

/** What can be done with the selected piece besides its figures. */
function WithPiece({ piece }: { readonly piece: LaidPiece }) {
  const { documents } = useBench();
  const { apply } = useBuild();
  if (piece.free)
    return (
      <p className="soft">
        {piece.points.length.toLocaleString('en')} points. Press twice on the picture to add one, or I behind
        the one that is selected; Delete removes it.
      </p>
    );
  return (
    <p>
      <button
        type="button"
        className="button small"
        onClick={() => apply(asPoints(documents.getState().raw, piece.path))}
      >
        Turn into points
      </button>{' '}
      <span className="soft">to move each by hand</span>
    </p>
  );
}

/** Puts the keyboard back on the button of a tool that was left, unless it is somewhere else by then. */
function useWayBack(card: RefObject<HTMLElement | null>, tool: GroundTool): void {
  const last = useRef(tool);
  useEffect(() => {
    const was = TOOLS.findIndex((each) => each.tool === last.current);
    last.current = tool;
    if (tool !== 'points' || was < 0) return undefined;
    const wait = requestAnimationFrame(() => {
      if (document.activeElement === document.body)
        card.current?.querySelectorAll<HTMLElement>('.ground-tools .group button')[was]?.focus();
    });
    return () => cancelAnimationFrame(wait);
  }, [card, tool]);
}

/** The ground as a list of pieces, with the ways to make more of it. */
export function GroundCard() {
  const { documents, notices, selection } = useBench();
  const { apply } = useBuild();
  const pieces = usePieces();
  const opening = useDocument((state) => state.opening);
  const tool = useNotice(({ ground }) => ground?.tool ?? 'points');
  const entry = useSelection((state) => state.entry);
  const list = useRef<HTMLOListElement>(null);
  const card = useRef<HTMLElement>(null);
  useWayBack(card, tool);
  const { gripOf, markOf } = useOrder(list, pieces.length, (from, to) =>
    apply(reorderEntry(documents.getState().raw, ['ground', from], to)),
  );
  const selected = pieces.find(({ path }) => samePath(path, entry));
  const end = pieces.at(-1)?.to.x ?? 0;
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (by === 0 || event.altKey || event.ctrlKey) return;
    const now = pieces.findIndex(({ path }) => samePath(path, entry));
    const next = pieces[Math.min(pieces.length - 1, Math.max(0, now + by))];
    event.preventDefault();
    event.stopPropagation();
    if (next === undefined) return;
    select(selection, next.path);
    list.current?.children[Number(next.path[1])]?.querySelector<HTMLElement>('.ground-piece')?.focus();
  };
  return (
    <section className="ground-card" aria-label="Ground" ref={card}>
      <header>
        <h2>Ground</h2>
        <span className="soft">
          {pieces.length === 1 ? '1 piece' : `${pieces.length} pieces`}, {length(end)}
        </span>
      </header>
      <div className="ground-tools" role="toolbar" aria-label="Make ground">
        <AddPiece key={opening} />
        <span className="group">
          {TOOLS.map((each) => (
            <button
              key={each.tool}
              type="button"
              className="button"
              aria-pressed={tool === each.tool}
              title={each.says}
              onClick={() =>
                notices.setState({ ground: { tool: tool === each.tool ? 'points' : each.tool } })
              }
            >
              {each.title}
            </button>
          ))}
        </span>
      </div>
      <ol className="ground-list" ref={list} aria-label="Pieces from rear to front" onKeyDown={onKeyDown}>
        {pieces.map((piece, i) => (
          <Row key={pathText(piece.path)} piece={piece} grip={gripOf(i)} mark={markOf(i)} />
        ))}
      </ol>
      {selected === undefined ? null : <WithPiece piece={selected} />}
    </section>
  );
}
