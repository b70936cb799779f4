import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { Problem } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { evaluateField, formatQuantity } from '../../shared/units.ts';
import { useBench, useDocument, useNotice } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import { proportionsOf } from '../edits/proportions.ts';
import { simplified } from '../edits/simplify.ts';
import { ProfileLine } from './ProfileLine.tsx';
import {
  type Choice,
  type ColumnUnit,
  columnUnits,
  type Form,
  fits,
  guessOf,
  layProfile,
  MOST_BY_HAND,
  type Profile,
  pieceFrom,
  readProfile,
  sizeInWords,
  toleranceFor,
} from './profile.ts';
import { Sheet } from './Sheet.tsx';
import { readProfileFile } from './take.ts';

const SEPARATORS = { ',': 'comma', ';': 'semicolon', '\t': 'tab' } as const;
const NAMES = { comma: 'comma', semicolon: 'semicolon', tab: 'tab' } as const;
/** Lines of a text that are shown, and the longest text that is shown whole in its field. */
const SHOWN_LINES = 6;
const SHOWN_TEXT = 20_000;
/** Finest tolerance that is offered, in wheel radii. */
const FINEST = 0.002;
/** Problems that are listed. */
const LISTED = 12;

interface PickProps {
  readonly label: string;
  readonly value: string | number;
  readonly onPick: (value: string) => void;
  readonly children: ReactNode;
}

function Pick({ label, value, onPick, children }: PickProps) {
  return (
    <label>
      <span>{label}</span>
      <select value={value} onChange={({ currentTarget }) => onPick(currentTarget.value)}>
        {children}
      </select>
    </label>
  );
}

/** Where the text comes from: a file, or what is pasted. */
function Source({
  name,
  text,
  onText,
}: {
  readonly name: string;
  readonly text: string;
  readonly onText: (name: string, text: string) => void;
}) {
  const bench = useBench();
  const file = useRef<HTMLInputElement>(null);
  const long = text.length > SHOWN_TEXT;
  return (
    <div className="import-source">
      <p>
        <button type="button" className="button" onClick={() => file.current?.click()}>
          Choose a file
        </button>{' '}
        <span className="soft">{name === '' ? 'or drop one on the window, or paste its lines' : name}</span>
      </p>
      <input
        ref={file}
        type="file"
        hidden
        accept=".csv,.tsv,.txt,text/csv,text/plain"
        onChange={({ currentTarget }) => {
          const [chosen] = currentTarget.files ?? [];
          if (chosen !== undefined)
            void readProfileFile(bench, chosen).then(
              (read) => read !== undefined && onText(chosen.name, read),
            );
          currentTarget.value = '';
        }}
      />
      {long ? (
        <>
          <pre className="import-lines">
            {text.split(/\r\n|\r|\n/, SHOWN_LINES).join('\n')}
            {'\n…'}
          </pre>
          <button type="button" className="button small" onClick={() => onText('', '')}>
            Another text
          </button>
        </>
      ) : (
        <textarea
          aria-label="Lines with station and height"
          rows={6}
          spellCheck={false}
          placeholder={'station [mm], height [mm]\n0, 0\n250, 12.5\n500, 4'}
          value={text}
          onChange={({ currentTarget }) => onText('', currentTarget.value)}
        />
      )}
    </div>
  );
}

/** What is wrong with the text, by line. */
function Troubles({ problems }: { readonly problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <ul className="problems import-problems" aria-label="Problems of the text">
      {problems.slice(0, LISTED).map(({ path, message, hint, severity }) => (
        <li key={`${path} ${message}`} className={severity}>
          <span>
            <strong>{path.replace(/^text(, )?/, '') || 'the text'}</strong>: {message}
          </span>
          {hint === undefined ? null : <span className="hint">{hint}</span>}
        </li>
      ))}
      {problems.length > LISTED ? <li>and {problems.length - LISTED} more</li> : null}
    </ul>
  );
}

/** Simplifying: off until it is asked for, with the tolerance and what comes of it. */
function useSimplifying({ points, failed }: Profile, form: Form, radius: number) {
  const [on, setOn] = useState(false);
  const [typed, setTyped] = useState('');
  const most = form === 'points' ? MOST_BY_HAND : limits.groundPoints;
  const offered = useMemo(
    () => (on && !failed && points.length > 1 ? toleranceFor(points, most, FINEST * radius) : undefined),
    [on, failed, points, most, radius],
  );
  const read = typed.trim() === '' ? undefined : evaluateField(typed, 'length', 'mm');
  const wrong = read !== undefined && !(read.ok && read.value > 0);
  const tolerance = read?.ok === true && read.value > 0 ? read.value : offered;
  const simple = useMemo(
    () => (on && tolerance !== undefined ? simplified(points, tolerance) : undefined),
    [on, tolerance, points],
  );
  return { on, setOn, typed, setTyped, tolerance, simple, wrong };
}

/** A profile from separated values: where from, which columns, which units, what it looks like, what is wrong with it. */
export function ImportSheet({ onLaid }: { readonly onLaid: () => void }) {
  const { documents, notices } = useBench();
  const { apply } = useBuild();
  const radius = proportionsOf(useDocument((state) => state.raw)).radius;
  const dropped = useNotice(({ ground }) => ground?.file);
  const [source, setSource] = useState({ name: dropped?.name ?? '', text: dropped?.text ?? '' });
  const [format, setFormat] = useState<Pick<Choice, 'separator' | 'decimal'>>({
    separator: 'auto',
    decimal: 'auto',
  });
  const [own, setOwn] = useState<Partial<Choice>>({});
  const [form, setForm] = useState<Form>();
  const sheet = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (dropped !== undefined) {
      setSource(dropped);
      setOwn({});
    }
  }, [dropped]);
  useEffect(() => {
    sheet.current?.querySelector<HTMLElement>('textarea, button')?.focus();
  }, []);
  const { name, text } = source;
  const guess = useMemo(() => guessOf(text, format), [text, format]);
  const choice = useMemo<Choice>(() => ({ ...guess.choice, ...own, ...format }), [guess, own, format]);
  const isThere = text.trim() !== '';
  const profile = useMemo(() => readProfile(text, choice), [text, choice]);
  const { points, problems, failed } = profile;
  const as: Form = form ?? (fits(points.length, 'points') ? 'points' : 'text');
  const simplifying = useSimplifying(profile, as, radius);
  const { on, simple, tolerance, wrong } = simplifying;
  const count = simple?.length ?? points.length;
  const enough = fits(count, as);
  const good = isThere && !failed && enough && !wrong && points.length > 1;
  const close = (): void => notices.setState({ ground: { tool: 'points' } });
  const lay = (): void => {
    if (!good) return;
    const piece = pieceFrom(simple ?? points, as, name.replace(/\.[a-z]+$/i, ''));
    apply(layProfile(documents.getState().raw, piece));
    close();
    onLaid();
  };
  const pick = (change: Partial<Choice>): void => setOwn({ ...own, ...change });
  const columns = guess.columns.map((each, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place.
    <option key={i} value={i + 1}>
      {each}
    </option>
  ));
  const units = columnUnits.map((unit) => <option key={unit}>{unit}</option>);
  const separator = NAMES[SEPARATORS[guess.separator as keyof typeof SEPARATORS] ?? 'comma'];
  return (
    <Sheet title="Profile from a CSV file" onClose={close} onSubmit={lay}>
      <div ref={sheet} className="import">
        <Source
          name={name}
          text={text}
          onText={(from, read) => {
            setSource({ name: from, text: read });
            if (from !== '') setOwn({});
          }}
        />
        <fieldset className="import-columns" disabled={!isThere}>
          <legend className="unseen">How it is read</legend>
          <Pick
            label="Station column"
            value={choice.stationColumn}
            onPick={(v) => pick({ stationColumn: Number(v) })}
          >
            {columns}
          </Pick>
          <Pick
            label="Station unit"
            value={choice.stationUnit}
            onPick={(v) => pick({ stationUnit: v as ColumnUnit })}
          >
            {units}
          </Pick>
          <Pick
            label="Height column"
            value={choice.heightColumn}
            onPick={(v) => pick({ heightColumn: Number(v) })}
          >
            {columns}
          </Pick>
          <Pick
            label="Height unit"
            value={choice.heightUnit}
            onPick={(v) => pick({ heightUnit: v as ColumnUnit })}
          >
            {units}
          </Pick>
          <Pick
            label="Between columns"
            value={format.separator}
            onPick={(v) => setFormat({ ...format, separator: v as Choice['separator'] })}
          >
            <option value="auto">found: {separator}</option>
            {Object.values(SEPARATORS).map((each) => (
              <option key={each}>{each}</option>
            ))}
          </Pick>
          <Pick
            label="Decimal sign"
            value={format.decimal}
            onPick={(v) => setFormat({ ...format, decimal: v as Choice['decimal'] })}
          >
            <option value="auto">found: {guess.decimal === ',' ? 'comma' : 'point'}</option>
            <option value="point">point</option>
            <option value="comma">comma</option>
          </Pick>
        </fieldset>
        {isThere ? (
          <p className="soft">
            {guess.header ? 'The first line names the columns. ' : 'There is no header. '}
            {guess.told.station && guess.told.height
              ? 'Units as the header has them.'
              : 'The text does not say its units: see whether length and height below are right.'}
          </p>
        ) : (
          <p className="soft">
            At most 20 MB and {limits.groundPoints.toLocaleString('en')} points; up to{' '}
            {MOST_BY_HAND.toLocaleString('en')} of them can be moved by hand.
          </p>
        )}
        {isThere ? <Troubles problems={problems} /> : null}
        {isThere && points.length > 1 ? (
          <>
            <ProfileLine points={points} simple={simple} says={sizeInWords(points)} />
            <p className="soft">
              A wheel of this vehicle is {formatQuantity(2 * radius, 'length', 3)} across.
            </p>
            <fieldset className="sheet-choice">
              <legend className="unseen">How it is kept</legend>
              {(['points', 'text'] as const).map((each) => (
                <label key={each}>
                  <input
                    type="radio"
                    name="import-form"
                    checked={as === each}
                    onChange={() => setForm(each)}
                  />
                  {each === 'points'
                    ? `as points that can be moved by hand (at most ${MOST_BY_HAND.toLocaleString('en')})`
                    : `as a fixed profile (at most ${limits.groundPoints.toLocaleString('en')} points)`}
                </label>
              ))}
            </fieldset>
            {enough ? null : (
              <p className="field-problem" role="alert">
                It has {count.toLocaleString('en')} points: too many to be kept like this. Simplify it, or
                keep it otherwise.
              </p>
            )}
            <p className="import-simplify">
              <label className="check">
                <input
                  type="checkbox"
                  checked={on}
                  onChange={({ currentTarget }) => simplifying.setOn(currentTarget.checked)}
                />
                Simplify to within
              </label>
              <input
                type="text"
                aria-label="Tolerance of the simplified profile"
                aria-invalid={wrong}
                disabled={!on}
                placeholder={tolerance === undefined ? '' : formatQuantity(tolerance, 'length', 2)}
                value={simplifying.typed}
                onChange={({ currentTarget }) => simplifying.setTyped(currentTarget.value)}
              />
              <span role="status">
                {simple === undefined ? '' : `${simple.length.toLocaleString('en')} points`}
              </span>
            </p>
          </>
        ) : null}
        <p className="sheet-foot">
          <button type="submit" className="button strong" disabled={!good}>
            Add to the ground
          </button>
          <button type="button" className="button" onClick={close}>
            Leave
          </button>
        </p>
      </div>
    </Sheet>
  );
}
