import { useEffect, useMemo, useRef, useState } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { formatQuantity } from '../../shared/units.ts';
import { useBench, useDocument } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import { isList, valueAt } from '../documents/json.ts';
import { rangeWords } from '../panels/fields/figure.ts';
import {
  type ChainKind,
  type ChainPlace,
  type ChainRow,
  chainKinds,
  freshRow,
  layChain,
  type ReadRow,
  readRow,
  usualGapText,
} from './chain.ts';
import { ProfileLine } from './ProfileLine.tsx';
import { GroundReader } from './pieces.ts';
import { Sheet } from './Sheet.tsx';
import { useOrder } from './useOrder.ts';

interface RowProps {
  readonly row: ChainRow;
  readonly index: number;
  readonly kinds: readonly ChainKind[];
  readonly read: ReadRow;
  /** The gap that is left where none is typed. */
  readonly gap: string;
  readonly grip: ReturnType<ReturnType<typeof useOrder>['gripOf']>;
  readonly mark: ReturnType<ReturnType<typeof useOrder>['markOf']>;
  readonly onChange: (row: ChainRow) => void;
  readonly onRemove: () => void;
}

/** One obstacle: its grip, its kind, its sizes, the level ground behind it. */
function Row({ row, index, kinds, read, gap, grip, mark, onChange, onRemove }: RowProps) {
  const kind = kinds.find((each) => each.kind === row.kind);
  const name = `${kind?.title ?? row.kind} ${index + 1}`;
  const wrong = Object.entries(read.wrong);
  const field = (key: string, label: string, value: string, usual: string, says: string) => (
    <label key={key} title={says}>
      <span>{label}</span>
      <input
        type="text"
        autoComplete="off"
        spellCheck={false}
        aria-label={`${name}: ${label}`}
        aria-invalid={read.wrong[key] !== undefined}
        placeholder={usual}
        value={value}
        onChange={({ currentTarget }) =>
          onChange(
            key === 'gap'
              ? { ...row, gap: currentTarget.value }
              : { ...row, typed: { ...row.typed, [key]: currentTarget.value } },
          )
        }
      />
    </label>
  );
  return (
    <li data-mark={mark}>
      <button
        type="button"
        className="grip"
        aria-label={`Order of ${name}: arrow keys`}
        title="Drag, or arrow keys"
        {...grip}
      >
        {index + 1}
      </button>
      <select
        aria-label={`Kind of obstacle ${index + 1}`}
        value={row.kind}
        onChange={({ currentTarget }) => onChange({ ...row, kind: currentTarget.value, typed: {} })}
      >
        {kinds.map((each) => (
          <option key={each.kind} value={each.kind}>
            {each.title}
          </option>
        ))}
      </select>
      <span className="chain-sizes">
        {kind?.sizes.map(({ key, label, usual, about }) =>
          field(key, label, row.typed[key] ?? '', usual, `${about.description ?? ''} ${rangeWords(about)}`),
        )}
        {field(
          'gap',
          'level behind',
          row.gap,
          gap,
          "Level ground before the next obstacle; a vehicle's length when left empty",
        )}
      </span>
      <button type="button" className="button small bare" aria-label={`Remove ${name}`} onClick={onRemove}>
        ×
      </button>
      {wrong.length === 0 ? null : (
        <p className="field-problem" role="alert">
          {wrong.map(([key, why]) => `${key}: ${why}`).join('. ')}
        </p>
      )}
    </li>
  );
}

/** Rows put in another order. */
function ordered(rows: readonly ChainRow[], from: number, to: number): readonly ChainRow[] {
  const row = rows[from];
  const others = rows.filter((_, i) => i !== from);
  return row === undefined ? rows : [...others.slice(0, to), row, ...others.slice(to)];
}

/** The line of what would be laid, and what is wrong with it. */
function usePreview(rows: readonly ReadRow[], place: ChainPlace) {
  const raw = useDocument((state) => state.raw);
  return useMemo(() => {
    const edit = layChain(raw, rows, place);
    const pieces = new GroundReader().read(edit.document);
    const points: Vec2[] = pieces.flatMap((piece) => [...piece.points]);
    const broken = pieces.filter((piece) => piece.points.length === 0);
    return { edit, pieces, points, broken };
  }, [raw, rows, place]);
}

/** A ground from a list of obstacles with sizes: typed, put in order, seen, and laid as one step. */
export function ChainSheet({ onLaid }: { readonly onLaid: () => void }) {
  const { documents, notices } = useBench();
  const { apply } = useBuild();
  const raw = useDocument((state) => state.raw);
  const kinds = useMemo(() => chainKinds(raw), [raw]);
  const gap = useMemo(() => usualGapText(raw), [raw]);
  const counted = useRef(1);
  const [rows, setRows] = useState<readonly ChainRow[]>(() => [freshRow(1)]);
  const [place, setPlace] = useState<ChainPlace>('instead');
  const list = useRef<HTMLOListElement>(null);
  const focusNew = useRef(false);
  const read = useMemo(() => rows.map((row) => readRow(row, kinds)), [rows, kinds]);
  const { pieces, points, broken } = usePreview(read, place);
  const { gripOf, markOf } = useOrder(list, rows.length, (from, to) => setRows(ordered(rows, from, to)));
  const wrong = read.some((each) => Object.keys(each.wrong).length > 0);
  const good = rows.length > 0 && !wrong && broken.length === 0;
  useEffect(() => {
    list.current?.querySelector<HTMLElement>('select')?.focus();
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: after a row has come.
  useEffect(() => {
    if (!focusNew.current) return;
    focusNew.current = false;
    list.current?.lastElementChild?.querySelector<HTMLElement>('select')?.focus();
  }, [rows.length]);
  const close = (): void => notices.setState({ ground: { tool: 'points' } });
  const lay = (): void => {
    if (!good) return;
    apply(layChain(documents.getState().raw, read, place));
    close();
    onLaid();
  };
  const was = valueAt(raw, ['ground']);
  const there = isList(was) ? was.length : 0;
  const end = pieces.at(-1)?.to;
  return (
    <Sheet title="Chain of obstacles" onClose={close} onSubmit={lay}>
      <ol className="chain" ref={list} aria-label="Obstacles in order">
        {rows.map((row, i) => (
          <Row
            key={row.id}
            row={row}
            index={i}
            kinds={kinds}
            read={read[i] as ReadRow}
            gap={gap}
            grip={gripOf(i)}
            mark={markOf(i)}
            onChange={(next) => setRows(rows.map((each) => (each.id === row.id ? next : each)))}
            onRemove={() => setRows(rows.filter(({ id }) => id !== row.id))}
          />
        ))}
      </ol>
      <p>
        <button
          type="button"
          className="button"
          onClick={() => {
            counted.current += 1;
            focusNew.current = true;
            setRows([...rows, freshRow(counted.current, rows.at(-1)?.kind)]);
          }}
        >
          Add an obstacle
        </button>
      </p>
      <p className="soft">Sizes that are left empty suit the wheels; a figure may have any unit of length.</p>
      <ProfileLine
        points={points}
        says={`${pieces.length} pieces, ${formatQuantity(end?.x ?? 0, 'length', 3)} long`}
      />
      {broken.length === 0 || wrong ? null : (
        <p className="field-problem" role="alert">
          {broken.map(({ title }) => title).join(', ')}: these sizes do not go together.
        </p>
      )}
      <fieldset className="sheet-choice">
        <legend className="unseen">Where it goes</legend>
        <label>
          <input
            type="radio"
            name="chain-place"
            checked={place === 'instead'}
            onChange={() => setPlace('instead')}
          />
          in place of the whole ground{there === 0 ? '' : ` (${there} ${there === 1 ? 'piece' : 'pieces'})`}
        </label>
        <label>
          <input
            type="radio"
            name="chain-place"
            checked={place === 'behind'}
            onChange={() => setPlace('behind')}
          />
          behind the ground that is there
        </label>
      </fieldset>
      <p className="sheet-foot">
        <button type="submit" className="button strong" disabled={!good}>
          Lay the chain
        </button>
        <button type="button" className="button" onClick={close}>
          Leave
        </button>
      </p>
    </Sheet>
  );
}
