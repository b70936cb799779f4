import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { evaluateField, shownUnit, toUnit } from '../../shared/units.ts';
import { useBench, useDocument } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import { moveInWords } from '../canvas/handles/steps.ts';
import { angleShown, figure, type Shown, withUnit } from '../charts/figures.ts';
import { valueAt } from '../documents/json.ts';
import { moveGroundPoint } from '../edits/ground.ts';
import type { LaidPiece } from './pieces.ts';
import { slopesAt } from './places.ts';
import { setSize } from './sizes.ts';
import type { Grasp, Grip } from './useGrasp.ts';

const CAUGHT = {
  grid: '',
  point: 'on another point',
  level: 'level with another point',
  upright: 'under or over another point',
} as const;

interface BesideProps {
  readonly spot: Grip['spot'];
  readonly width: number;
  readonly children: ReactNode;
  readonly label?: string;
}

/** Keeps words beside a handle and within the picture. */
function placed({ x, y }: Grip['spot'], width: number): string {
  const left = x + 320 > width && x > width / 2;
  const below = y < 150;
  return `translate(${Math.round(x + (left ? -24 : 24))}px, ${Math.round(y + (below ? 14 : -14))}px) translate(${left ? '-100%' : '0'}, ${below ? '0' : '-100%'})`;
}

function Beside({ spot, width, children }: BesideProps) {
  return (
    <div className="handle-note" aria-hidden="true" style={{ transform: placed(spot, width) }}>
      {children}
    </div>
  );
}

interface NoteProps {
  readonly grip: Grip;
  readonly grasp: Grasp | undefined;
  readonly piece: LaidPiece | undefined;
  readonly width: number;
  readonly shown: Shown;
  readonly why: string | undefined;
}

/** A slope as people say it. */
const slope = (angle: number | undefined): string => {
  if (angle === undefined) return '–';
  return Math.abs(angle) > 1.5706 ? 'upright' : withUnit(angle, angleShown);
};

/** Words beside a point or a size: what it is, where, how far it has moved, and what keeps it. */
export function GroundNote({ grip, grasp, piece, width, shown, why }: NoteProps) {
  const { notices } = useBench();
  const { at, size, label } = grip;
  const held = grasp?.id === grip.id ? grasp : undefined;
  const index = Number(grip.path.at(-1));
  const place =
    size === undefined
      ? `station ${withUnit(at.x, shown)}, height ${withUnit(at.z, shown)}`
      : withUnit(size.value, shown);
  const isHeld = held !== undefined;
  useEffect(() => {
    if (isHeld)
      notices.setState({ said: `${label}: ${place}${why === undefined ? '' : `. Broken: ${why}`}` });
  }, [isHeld, label, place, why, notices]);
  const kept = held?.wanted !== undefined && Math.abs(held.wanted.x - at.x) > 1e-9;
  const caught = held?.caught?.to;
  const slopes = size === undefined && piece !== undefined ? slopesAt(piece, index) : undefined;
  return (
    <Beside spot={grip.spot} width={width}>
      <p className="handle-name">{label}</p>
      <table>
        <tbody>
          {size === undefined ? (
            (['x', 'z'] as const).map((axis) => (
              <tr key={axis}>
                <th>{axis === 'x' ? 'station' : 'height'}</th>
                <td>
                  {figure(at[axis], shown)} {shown.unit}
                </td>
                <td className="handle-by">
                  {held === undefined ? '' : moveInWords(at[axis] - held.from[axis], shown)}
                </td>
              </tr>
            ))
          ) : (
            <tr>
              <td>{withUnit(size.value, shown)}</td>
              <td className="handle-by">
                {held?.was === undefined ? '' : moveInWords(size.value - held.was, shown)}
              </td>
            </tr>
          )}
          {slopes === undefined ? null : (
            <tr>
              <th>slope</th>
              <td>{slope(slopes.before)}</td>
              <td className="handle-by">
                {slopes.behind === undefined ? '' : `then ${slope(slopes.behind)}`}
              </td>
            </tr>
          )}
        </tbody>
      </table>
      {caught === undefined || CAUGHT[caught] === '' ? null : (
        <p className="handle-caught">{CAUGHT[caught]}</p>
      )}
      {kept ? <p className="handle-caught">stays between its neighbours: stations never go back</p> : null}
      {why === undefined ? null : <p className="handle-problem">{why}</p>}
    </Beside>
  );
}

/** A length as it is offered in a field. */
const offered = (si: number, unit: string): string => `${Number(toUnit(si, unit).toPrecision(7))} ${unit}`;

interface TypedProps {
  readonly grip: Grip;
  readonly width: number;
  readonly onClose: () => void;
}

/** Typed figures at a handle, with units: station and height of a point, or a size. Enter takes them, Escape drops them. */
export function TypedPoint({ grip, width, onClose }: TypedProps) {
  const { documents } = useBench();
  const { apply } = useBuild();
  const { size, at } = grip;
  const value = useDocument(({ raw }) => valueAt(raw, grip.path));
  const unit = shownUnit('length', Math.max(Math.abs(at.z), size?.value ?? 0, 1e-3));
  const rows =
    size === undefined
      ? [
          { label: 'station', text: offered(at.x, unit) },
          { label: 'height', text: offered(at.z, unit) },
        ]
      : [{ label: 'size', text: typeof value === 'string' ? value : offered(size.value, unit) }];
  const [texts, setTexts] = useState(() => rows.map(({ text }) => text));
  const [wrong, setWrong] = useState<string>();
  const form = useRef<HTMLFormElement>(null);
  const id = useId();
  useEffect(() => form.current?.querySelector('input')?.select(), []);
  const take = (event: FormEvent): void => {
    event.preventDefault();
    const read = texts.map((text) => evaluateField(text, 'length', unit));
    const bad = read.find((each) => !each.ok);
    if (bad !== undefined && !bad.ok) {
      setWrong(bad.hint === undefined ? bad.message : `${bad.message}: ${bad.hint}`);
      return;
    }
    const [x = 0, z = 0] = read.map((each) => (each.ok ? each.value : 0));
    const { raw } = documents.getState();
    apply(size === undefined ? moveGroundPoint(raw, grip.path, { x, z }) : setSize(raw, grip.path, x));
    onClose();
  };
  return (
    <form
      className="handle-note typed-place"
      ref={form}
      style={{ transform: placed(grip.spot, width) }}
      aria-label={`Place of ${grip.label}`}
      onSubmit={take}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.preventDefault();
        event.stopPropagation();
        onClose();
      }}
    >
      <p className="handle-name">{grip.label}</p>
      {rows.map(({ label, text }, i) => (
        <label key={label}>
          <span>{label}</span>
          <input
            type="text"
            autoComplete="off"
            spellCheck={false}
            // biome-ignore lint/a11y/noAutofocus: it was asked for with a key.
            autoFocus={i === 0}
            aria-invalid={wrong !== undefined}
            aria-describedby={wrong === undefined ? undefined : id}
            placeholder={text}
            value={texts[i] ?? ''}
            onChange={({ currentTarget }) => {
              setWrong(undefined);
              setTexts(texts.map((each, k) => (k === i ? currentTarget.value : each)));
            }}
          />
        </label>
      ))}
      {wrong === undefined ? null : (
        <p className="handle-problem" id={id} role="alert">
          {wrong}
        </p>
      )}
      <div className="group">
        <button type="submit" className="button small strong">
          Put there
        </button>
        <button type="button" className="button small" onClick={onClose}>
          Leave
        </button>
      </div>
    </form>
  );
}
