import { type KeyboardEvent, memo, useEffect, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useSelection } from '../app/workbench.ts';
import type { DeskState } from '../runs/desk.ts';
import { select } from '../store/selection.ts';
import { useForm } from './form.ts';
import { type Line, linesOf, type Part, partsOf, wayTo } from './parts.ts';

/** The parts of the open document, made anew only when more than figures changed, so that a drag stays smooth. */
export function useParts(): readonly Part[] {
  const form = useForm();
  return useMemo(() => partsOf(form), [form]);
}

/** The line that a letter leads to: the next one after `from` whose title begins with it. */
function lineWith(lines: readonly Line[], from: number, letter: string): number | undefined {
  const begins = ({ part }: Line) => part.title.toLowerCase().startsWith(letter.toLowerCase());
  const after = lines.findIndex((line, i) => i > from && begins(line));
  const any = after === -1 ? lines.findIndex(begins) : after;
  return any === -1 ? undefined : any;
}

/** Where an arrow key, Home or End leads from a line; a set of ids to open or close instead. */
function step(
  key: string,
  lines: readonly Line[],
  at: number,
  closed: ReadonlySet<string>,
): { readonly to?: number; readonly toggle?: string } | undefined {
  const line = lines[at];
  if (line === undefined) return undefined;
  const { part } = line;
  const isClosed = closed.has(part.id);
  if (key === 'ArrowDown') return { to: Math.min(at + 1, lines.length - 1) };
  if (key === 'ArrowUp') return { to: Math.max(at - 1, 0) };
  if (key === 'Home') return { to: 0 };
  if (key === 'End') return { to: lines.length - 1 };
  if (key === 'ArrowRight' && part.children.length > 0)
    return isClosed ? { toggle: part.id } : { to: at + 1 };
  if (key === 'ArrowLeft') {
    if (part.children.length > 0 && !isClosed) return { toggle: part.id };
    const up = lines.findIndex(({ part: { id } }) => id === line.parent);
    return up === -1 ? {} : { to: up };
  }
  return undefined;
}

/** Places of all errors, one a line: the same text as long as they are the same. */
const wrongPlaces = ({ problems }: Pick<DeskState, 'problems'>): string =>
  problems
    .filter(({ severity }) => severity === 'error')
    .map(({ path }) => path)
    .join('\n');

interface PartsTreeProps {
  /** Enter on a part: on to its points on the picture. */
  readonly onEnter: () => void;
}

/**
 * The vehicle as a tree: what hangs on what. Selecting here selects on the picture and the other way round. Keys as the
 * ARIA Authoring Practices ask of a tree view.
 */
export function PartsTree({ onEnter }: PartsTreeProps) {
  const { selection } = useBench();
  const parts = useParts();
  const entry = useSelection((state) => state.entry);
  const under = useSelection((state) => state.under);
  const wrong = useDesk(wrongPlaces);
  const [closed, setClosed] = useState<ReadonlySet<string>>(new Set());
  const [active, setActive] = useState<string>();
  const tree = useRef<HTMLDivElement>(null);
  const chosen = entry === undefined ? undefined : pathText(entry);
  const hovered = under === undefined ? undefined : pathText(under);
  const broken = useMemo(() => wrong.split('\n'), [wrong]);

  useEffect(() => {
    if (chosen === undefined) return;
    setActive(chosen);
    const way = wayTo(parts, chosen);
    if (way === undefined) return;
    setClosed((now) =>
      way.some((id) => now.has(id)) ? new Set([...now].filter((id) => !way.includes(id))) : now,
    );
  }, [chosen, parts]);
  useEffect(() => {
    if (chosen === undefined) return;
    const row = tree.current?.querySelector(`[data-id="${CSS.escape(chosen)}"]`);
    row?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);

  const lines = useMemo(() => linesOf(parts, closed), [parts, closed]);
  const at = Math.max(
    0,
    lines.findIndex(({ part }) => part.id === active),
  );

  const toggle = (id: string): void =>
    setClosed((now) => {
      const next = new Set(now);
      if (!next.delete(id)) next.add(id);
      return next;
    });
  const go = (index: number): void => {
    const line = lines[index];
    if (line === undefined) return;
    setActive(line.part.id);
    if (line.part.path !== undefined) select(selection, line.part.path);
    tree.current?.querySelector<HTMLElement>(`[data-id="${CSS.escape(line.part.id)}"]`)?.focus();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const move = step(event.key, lines, at, closed);
    const letter = event.key.length === 1 && /\p{L}|\p{N}/u.test(event.key);
    if (move?.to !== undefined) go(move.to);
    else if (move?.toggle !== undefined) toggle(move.toggle);
    else if (event.key === 'Enter') onEnter();
    else if (letter) {
      const found = lineWith(lines, at, event.key);
      if (found !== undefined) go(found);
    } else if (move === undefined) return;
    event.preventDefault();
    event.stopPropagation();
  };

  const latest = useRef<Pick<RowWishes, 'go' | 'toggle'>>({ go: () => undefined, toggle });
  latest.current = { go: (id) => go(lines.findIndex(({ part }) => part.id === id)), toggle };
  const wishes = useMemo<RowWishes>(
    () => ({
      go: (id) => latest.current.go(id),
      toggle: (id) => latest.current.toggle(id),
      point: (part) => selection.setState({ under: part?.path }),
    }),
    [selection],
  );

  return (
    <div className="parts" role="tree" aria-label="Parts of the vehicle" ref={tree} onKeyDown={onKeyDown}>
      {lines.map((line, i) => (
        <Row
          key={line.part.id}
          line={line}
          open={line.part.children.length === 0 ? undefined : !closed.has(line.part.id)}
          chosen={line.part.id === chosen}
          hovered={line.part.id === hovered}
          broken={line.part.path?.length !== 1 && broken.some((path) => isWithin(path, line.part))}
          stop={i === at}
          wishes={wishes}
        />
      ))}
    </div>
  );
}

/** Whether a problem's path lies in an entry; one of the whole vehicle is no entry's. */
function isWithin(problem: string, { path, id }: Part): boolean {
  if (typeof path?.at(-1) !== 'number') return false;
  return problem === id || problem.startsWith(`${id}.`) || problem.startsWith(`${id}[`);
}

interface RowProps {
  readonly line: Line;
  readonly open: boolean | undefined;
  readonly chosen: boolean;
  readonly hovered: boolean;
  readonly broken: boolean;
  readonly stop: boolean;
  readonly wishes: RowWishes;
}

/** What a press on a row asks for. */
interface RowWishes {
  readonly go: (id: string) => void;
  readonly toggle: (id: string) => void;
  readonly point: (part: Part | undefined) => void;
}

/** Drawn again only when it looks another way. */
const Row = memo(function Row({ line, open, chosen, hovered, broken, stop, wishes }: RowProps) {
  const { part, level, place, of } = line;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the tree itself listens to keys.
    <div
      role="treeitem"
      aria-level={level}
      aria-posinset={place}
      aria-setsize={of}
      aria-expanded={open}
      aria-selected={chosen}
      className="parts-row"
      data-id={part.id}
      data-under={hovered}
      title={part.kind === '' ? undefined : `${part.title}: ${part.kind}`}
      tabIndex={stop ? 0 : -1}
      style={{ paddingInlineStart: `${4 + (level - 1) * 14}px` }}
      onClick={() => wishes.go(part.id)}
      onPointerEnter={() => wishes.point(part)}
      onPointerLeave={() => wishes.point(undefined)}
    >
      {open === undefined ? (
        <span className="parts-mark" />
      ) : (
        <span
          className="parts-mark parts-twist"
          data-open={open}
          aria-hidden="true"
          onPointerDown={(event) => event.preventDefault()}
          onClick={(event) => {
            event.stopPropagation();
            wishes.toggle(part.id);
          }}
        />
      )}
      <span className="parts-title">{part.title}</span>
      {part.kind === '' ? null : <span className="kind parts-kind">{part.kind}</span>}
      {broken ? <span className="parts-broken">has a problem</span> : null}
    </div>
  );
});
