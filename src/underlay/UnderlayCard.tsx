import { type RefObject, useEffect, useId, useReducer, useRef, useState } from 'react';
import { createPortal } from 'react-dom';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { evaluateField, formatQuantity } from '../../shared/units.ts';
import { useBench, useDesk, useDocument, useNotice } from '../app/workbench.ts';
import { boardOf, pointOn, spotOn } from '../build/board.ts';
import type { Sight } from '../canvas/sight.ts';
import { commit } from '../store/document.ts';
import { takePictureFile } from './take.ts';
import { levelledBy, removePicture, scaledBy, setPicture, type Underlay, underlayOf } from './underlay.ts';

type Tool = 'scale' | 'level';

/** Two points that are clicked one after the other. */
interface Picking {
  readonly tool: Tool;
  readonly points: readonly Vec2[];
}

interface Props {
  readonly sight: Sight;
  readonly field: RefObject<HTMLElement | null>;
}

/** Pictures from the clipboard go under the drawing while it is being built. */
function usePaste(): void {
  const bench = useBench();
  useEffect(() => {
    const paste = (event: ClipboardEvent): void => {
      const file = [...(event.clipboardData?.files ?? [])].find(({ type }) => type.startsWith('image/'));
      if (file === undefined) return;
      event.preventDefault();
      void takePictureFile(bench, file);
    };
    window.addEventListener('paste', paste);
    return () => window.removeEventListener('paste', paste);
  }, [bench]);
}

/** A figure of the picture that is typed: taken with Enter or on leaving, kept with its problem when it is none. */
function Figure({
  label,
  value,
  dimension,
  unit,
  onTake,
}: {
  readonly label: string;
  readonly value: number;
  readonly dimension: 'length' | 'angle';
  readonly unit: string;
  readonly onTake: (value: number) => void;
}) {
  const [draft, setDraft] = useState<string>();
  const read = draft === undefined ? undefined : evaluateField(draft, dimension, unit);
  const wrong = read !== undefined && !read.ok;
  const take = (): void => {
    if (read?.ok === true) onTake(read.value);
    if (!wrong) setDraft(undefined);
  };
  return (
    <label className="underlay-figure">
      <span>{label}</span>
      <input
        type="text"
        autoComplete="off"
        spellCheck={false}
        aria-invalid={wrong}
        title={wrong ? read.message : undefined}
        value={draft ?? formatQuantity(value, dimension, 4)}
        onChange={({ currentTarget }) => setDraft(currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') setDraft(undefined);
        }}
      />
    </label>
  );
}

/** Asks how far two clicked points are apart, on the model or on the full-size vehicle. */
function ScaleForm({
  u,
  points: [a, b],
  onDone,
}: {
  readonly u: Underlay;
  readonly points: readonly [Vec2, Vec2];
  readonly onDone: (change: Partial<Underlay> | undefined) => void;
}) {
  const scale = useDesk((state) => state.drawn?.scenario.vehicle.scale ?? 1);
  const [text, setText] = useState('');
  const [full, setFull] = useState(scale !== 1);
  const id = useId();
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => first.current?.focus(), []);
  const read = evaluateField(text, 'length', full ? 'm' : 'mm');
  const apart = read.ok ? read.value / (full ? scale : 1) : Number.NaN;
  const change = scaledBy(u, a, b, apart);
  const wrong = text.trim() !== '' && change === undefined;
  return (
    <form
      className="underlay-scale"
      onSubmit={(event) => {
        event.preventDefault();
        if (change !== undefined) onDone(change);
      }}
    >
      <label htmlFor={id}>Distance between the two points</label>
      <input
        id={id}
        ref={first}
        type="text"
        autoComplete="off"
        placeholder={full ? '4.2 m' : '265 mm'}
        aria-invalid={wrong}
        value={text}
        onChange={({ currentTarget }) => setText(currentTarget.value)}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.key === 'Escape') onDone(undefined);
        }}
      />
      {scale === 1 ? null : (
        <fieldset>
          <legend className="unseen">What it was measured on</legend>
          <label>
            <input type="radio" name={id} checked={full} onChange={() => setFull(true)} /> on the full-size
            vehicle (1:{Number(scale.toPrecision(4))})
          </label>
          <label>
            <input type="radio" name={id} checked={!full} onChange={() => setFull(false)} /> on the model
          </label>
        </fieldset>
      )}
      {wrong ? <p className="wrong">{read.ok ? 'must be above 0' : read.message}</p> : null}
      <span className="row">
        <button type="submit" className="button strong" disabled={change === undefined}>
          Set the scale
        </button>
        <button type="button" className="button" onClick={() => onDone(undefined)}>
          Leave it
        </button>
      </span>
    </form>
  );
}

/** Takes clicks on the picture while two points are wanted, and shows the first. */
function Picker({
  picking,
  sight,
  field,
  onPoint,
}: Props & {
  readonly picking: Picking;
  readonly onPoint: (at: Vec2) => void;
}) {
  const layer = useRef<HTMLButtonElement>(null);
  return (
    <button
      ref={layer}
      type="button"
      className="underlay-picker"
      aria-label={picking.points.length === 0 ? 'Click the first point' : 'Click the second point'}
      onClick={({ clientX, clientY }) => {
        const box = field.current?.getBoundingClientRect();
        const seen = sight.now;
        if (box === undefined || seen === undefined) return;
        onPoint(pointOn(boardOf(seen), { x: clientX - box.left, y: clientY - box.top }));
      }}
    />
  );
}

/** The points that were clicked, while they are asked about. */
function Picked({ points, sight }: { readonly points: readonly Vec2[]; readonly sight: Sight }) {
  const [, again] = useReducer((count: number) => count + 1, 0);
  useEffect(() => sight.watch(again), [sight]);
  const seen = sight.now;
  if (seen === undefined) return null;
  const spots = points.map((point) => spotOn(boardOf(seen), point));
  const [a, b] = spots;
  return (
    <svg className="underlay-picked" aria-hidden="true">
      {a !== undefined && b !== undefined ? <path d={`M${a.x} ${a.y}L${b.x} ${b.y}`} /> : null}
      {spots.map(({ x, y }) => (
        <circle key={`${x} ${y}`} cx={x} cy={y} r={5} />
      ))}
    </svg>
  );
}

const asks: Record<Tool, string> = {
  scale: 'whose distance you know',
  level: 'that should lie level, two hubs for instance',
};

/** What can be done with the picture under the drawing, beside it; opens with the button 'Picture' and with a picture that is dropped. */
export function UnderlayCard({ sight, field }: Props) {
  const bench = useBench();
  const { documents, notices } = bench;
  const raw = useDocument((state) => state.raw);
  const open = useNotice((state) => state.picture);
  const [picking, setPicking] = useState<Picking>();
  const file = useRef<HTMLInputElement>(null);
  const gesture = useRef(0);
  usePaste();
  const u = underlayOf(raw);
  if (!open) return null;

  const set = (says: string, change: Partial<Underlay>, name?: string): void => {
    commit(documents, setPicture(documents.getState().raw, says, change), name);
  };
  const take = (at: Vec2): void => {
    if (picking === undefined || u === undefined) return;
    const points = [...picking.points, at];
    if (picking.tool === 'level' && points.length === 2) {
      const change = levelledBy(u, points[0] as Vec2, points[1] as Vec2);
      if (change !== undefined) set('level the picture', change);
      setPicking(undefined);
    } else setPicking({ ...picking, points });
  };
  const [a, b] = picking?.points ?? [];
  return (
    <>
      {picking !== undefined && picking.points.length < 2 && field.current !== null
        ? createPortal(<Picker picking={picking} sight={sight} field={field} onPoint={take} />, field.current)
        : null}
      {picking !== undefined && field.current !== null
        ? createPortal(<Picked points={picking.points} sight={sight} />, field.current)
        : null}
      <section className="underlay-card" aria-label="Picture under the drawing">
        <header>
          <h2>Picture</h2>
          <button
            type="button"
            className="button small bare"
            onClick={() => {
              setPicking(undefined);
              notices.setState({ picture: false });
            }}
          >
            Close
          </button>
        </header>
        {picking === undefined ? null : picking.points.length < 2 ? (
          <p role="status">
            Click the {picking.points.length === 0 ? 'first' : 'second'} of two points {asks[picking.tool]}.{' '}
            <button type="button" className="button small" onClick={() => setPicking(undefined)}>
              Leave it
            </button>
          </p>
        ) : null}
        {picking?.tool === 'scale' && a !== undefined && b !== undefined && u !== undefined ? (
          <ScaleForm
            u={u}
            points={[a, b]}
            onDone={(change) => {
              if (change !== undefined) set('scale the picture', change);
              setPicking(undefined);
            }}
          />
        ) : null}
        {picking !== undefined ? null : (
          <>
            <span className="row">
              <button type="button" className="button" onClick={() => file.current?.click()}>
                {u === undefined ? 'Choose a picture' : 'Another picture'}
              </button>
              {u === undefined ? null : (
                <button
                  type="button"
                  className="button"
                  onClick={() => commit(documents, removePicture(documents.getState().raw))}
                >
                  Remove
                </button>
              )}
            </span>
            <input
              ref={file}
              type="file"
              hidden
              accept="image/png,image/jpeg,image/webp"
              onChange={({ currentTarget }) => {
                const [chosen] = currentTarget.files ?? [];
                if (chosen !== undefined) void takePictureFile(bench, chosen);
                currentTarget.value = '';
              }}
            />
            {u === undefined ? (
              <p className="soft">
                PNG, JPEG or WebP; or paste one, or drop one on the window. It is kept with at most 2000
                pixels on its longer side.
              </p>
            ) : (
              <>
                <span className="row">
                  <button
                    type="button"
                    className="button"
                    onClick={() => setPicking({ tool: 'scale', points: [] })}
                  >
                    Scale by two points
                  </button>
                  <button
                    type="button"
                    className="button"
                    onClick={() => setPicking({ tool: 'level', points: [] })}
                  >
                    Level by two points
                  </button>
                </span>
                <label className="underlay-figure">
                  <span>Strength</span>
                  <input
                    type="range"
                    min={0}
                    max={1}
                    step={0.05}
                    value={u.opacity}
                    aria-valuetext={`${Math.round(100 * u.opacity)} %`}
                    onPointerDown={() => {
                      gesture.current += 1;
                    }}
                    onChange={({ currentTarget }) =>
                      set(
                        'fade the picture',
                        { opacity: Number(currentTarget.value) },
                        `fade ${gesture.current}`,
                      )
                    }
                  />
                </label>
                <Figure
                  label="Turned"
                  value={u.angle}
                  dimension="angle"
                  unit="deg"
                  onTake={(angle) => set('turn the picture', { angle })}
                />
                <Figure
                  label="Width"
                  value={u.width}
                  dimension="length"
                  unit="mm"
                  onTake={(width) => width > 0 && set('scale the picture', { width })}
                />
                <Figure
                  label="Middle x"
                  value={u.at.x}
                  dimension="length"
                  unit="mm"
                  onTake={(x) => set('move the picture', { at: { ...u.at, x } })}
                />
                <Figure
                  label="Middle z"
                  value={u.at.z}
                  dimension="length"
                  unit="mm"
                  onTake={(z) => set('move the picture', { at: { ...u.at, z } })}
                />
                <label className="underlay-check">
                  <input
                    type="checkbox"
                    checked={u.locked}
                    onChange={() =>
                      set(u.locked ? 'unlock the picture' : 'lock the picture', { locked: !u.locked })
                    }
                  />
                  Lock it where it is
                </label>
                <label className="underlay-check">
                  <input
                    type="checkbox"
                    checked={u.inFiles}
                    onChange={() => set('keep the picture in files', { inFiles: !u.inFiles })}
                  />
                  Write it into files too ({Math.ceil(u.picture.length / 1000)} kB)
                </label>
              </>
            )}
          </>
        )}
      </section>
    </>
  );
}
