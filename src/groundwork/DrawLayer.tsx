import { type PointerEvent, type RefObject, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { formatQuantity } from '../../shared/units.ts';
import { useBench, useDocument, useSelection } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import type { View } from '../canvas/camera.ts';
import { proportionsOf } from '../edits/proportions.ts';
import type { LaidPiece } from './pieces.ts';
import { layStroke, simplifiedStroke, steepWords, strokeOf, type Target, TOLERANCE } from './stroke.ts';
import { pathIn, spotIn, worldAt } from './view.ts';

interface DrawProps {
  readonly view: View;
  readonly pieces: readonly LaidPiece[];
  readonly field: RefObject<HTMLElement | null>;
  /** Tells the station, m, at which the line will be laid. */
  readonly onBegin: (station: number) => void;
}

/** Where a drawn line may go. */
const PLACES = {
  end: 'at the end',
  behind: 'behind the selected piece',
  instead: 'in place of the selected piece',
};
type Place = keyof typeof PLACES;

/** Steps of the slider of the tolerance, which is logarithmic. */
const STEPS = 60;

/** The tolerance at a place of the slider, in wheel radii. */
const toleranceAt = (step: number): number =>
  TOLERANCE.least * (TOLERANCE.most / TOLERANCE.least) ** (step / STEPS);

/** The place of the slider for a tolerance in wheel radii. */
const stepAt = (radii: number): number =>
  Math.max(
    0,
    Math.min(
      STEPS,
      Math.round((STEPS * Math.log(radii / TOLERANCE.least)) / Math.log(TOLERANCE.most / TOLERANCE.least)),
    ),
  );

/** A hand on a mouse trembles by so much, px: a tolerance below it keeps the tremble. */
const TREMBLE = 1.5;

/** Where a line goes, and where its first point will lie, m. */
function targetOf(place: Place, pieces: readonly LaidPiece[], selected: LaidPiece | undefined) {
  const end = pieces.at(-1)?.to ?? { x: 0, z: 0 };
  if (place === 'end' || selected === undefined) return { target: { kind: 'end' } as Target, begin: end };
  const begin = place === 'behind' ? selected.to : selected.from;
  return { target: { kind: place, piece: selected.path } as Target, begin };
}

/** A line of the world moved so that it begins at a place. */
const from = (line: readonly Vec2[], begin: Vec2): readonly Vec2[] => {
  const [first = begin] = line;
  return line.map(({ x, z }) => ({ x: x - first.x + begin.x, z: z - first.z + begin.z }));
};

/** Takes a line that is drawn by hand: pressed, drawn, let go; then it is made simple and laid. */
export function DrawLayer({ view, pieces, field, onBegin }: DrawProps) {
  const { documents, notices } = useBench();
  const { apply } = useBuild();
  const radius = proportionsOf(useDocument((state) => state.raw)).radius;
  const entry = useSelection((state) => state.entry);
  const [drawn, setDrawn] = useState<readonly Vec2[]>([]);
  const [busy, setBusy] = useState(false);
  const [chosen, setStep] = useState<number>();
  const [place, setPlace] = useState<Place>('end');
  const pointer = useRef<number | undefined>(undefined);
  const panel = useRef<HTMLDivElement>(null);
  const id = useId();
  const selected = entry?.[0] === 'ground' ? pieces[Number(entry[1])] : undefined;
  const step = chosen ?? stepAt(Math.max(TOLERANCE.usual, TREMBLE / (view.scale * radius)));
  const tolerance = toleranceAt(step) * radius;
  const stroke = useMemo(() => strokeOf(drawn, radius), [drawn, radius]);
  const line = useMemo(() => simplifiedStroke(stroke.line, tolerance), [stroke, tolerance]);
  const { target, begin } = targetOf(place, pieces, selected);
  const laid = from(line, begin);
  const span = (line.at(-1)?.x ?? 0) - (line[0]?.x ?? 0);
  const good = !busy && line.length > 1 && span > 0;
  const words =
    busy || drawn.length < 2
      ? []
      : good
        ? [
            ...stroke.words.filter((each) => !steepWords(stroke.line, radius).includes(each)),
            ...steepWords(line, radius),
          ]
        : ['This line does not lead forward: a ground needs some length. Draw it from left to right.'];

  const add = (event: PointerEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    // A browser may have gathered several places since the last frame.
    const all = event.nativeEvent.getCoalescedEvents?.() ?? [];
    const places = (all.length === 0 ? [event.nativeEvent] : all).map(({ clientX, clientY }) =>
      worldAt(view, { x: clientX - box.left, y: clientY - box.top }),
    );
    setDrawn((was) => [...was, ...places]);
  };
  const lift = (): void => {
    pointer.current = undefined;
    setBusy(false);
    requestAnimationFrame(() => panel.current?.querySelector<HTMLElement>('.strong')?.focus());
  };
  const lay = (): void => {
    if (!good) return;
    apply(layStroke(documents.getState().raw, stroke.line, tolerance, target));
    notices.setState({
      ground: { tool: 'points' },
      said: `Ground drawn with ${line.length} points. ${words.join(' ')}`,
    });
  };
  const beginning = useRef(onBegin);
  beginning.current = onBegin;
  const station = begin.x;
  useEffect(() => beginning.current(station), [station]);
  useEffect(() => {
    field.current?.querySelector<HTMLElement>('.draw-panel button')?.focus();
  }, [field]);
  return (
    <>
      <svg
        className="draw-layer"
        aria-hidden="true"
        onPointerDown={(event) => {
          if (event.button > 0 || pointer.current !== undefined) return;
          pointer.current = event.pointerId;
          event.currentTarget.setPointerCapture(event.pointerId);
          setDrawn([]);
          setBusy(true);
          add(event);
        }}
        onPointerMove={(event) => event.pointerId === pointer.current && add(event)}
        onPointerUp={(event) => event.pointerId === pointer.current && lift()}
        onPointerCancel={(event) => {
          if (event.pointerId !== pointer.current) return;
          setDrawn([]);
          lift();
        }}
      >
        <path className="drawn-line" d={drawn.length < 2 ? '' : pathBy(view, drawn)} />
        {good ? (
          <>
            <path className="laid-line" d={pathIn(view, laid)} />
            {laid.length > 400
              ? null
              : laid.map((p) => {
                  const { x, y } = spotIn(view, p);
                  return <circle key={`${p.x} ${p.z}`} className="laid-point" cx={x} cy={y} r={3} />;
                })}
          </>
        ) : null}
      </svg>
      <section className="draw-panel" aria-label="Draw ground" ref={panel}>
        {drawn.length === 0 || busy ? (
          <p>
            Press on the picture and draw the ground from left to right. It is laid where the ground before it
            ends.
          </p>
        ) : (
          <>
            <p role="status">
              <strong>{line.length} points</strong> of {drawn.length.toLocaleString('en')} drawn,{' '}
              {formatQuantity(Math.max(span, 0), 'length', 3)} long
            </p>
            {words.map((each) => (
              <p key={each} className="draw-word" role="note">
                {each}
              </p>
            ))}
            <label className="draw-tolerance" htmlFor={id}>
              <span>Simplified to within</span>
              <input
                id={id}
                type="range"
                min={0}
                max={STEPS}
                value={step}
                aria-valuetext={`${formatQuantity(tolerance, 'length', 2)}, ${line.length} points`}
                onChange={({ currentTarget }) => setStep(Number(currentTarget.value))}
              />
              <output htmlFor={id}>{formatQuantity(tolerance, 'length', 2)}</output>
            </label>
          </>
        )}
        <div className="draw-row">
          <label>
            <span className="unseen">Where it is laid</span>
            <select value={place} onChange={({ currentTarget }) => setPlace(currentTarget.value as Place)}>
              {(Object.keys(PLACES) as Place[]).map((each) => (
                <option key={each} value={each} disabled={each !== 'end' && selected === undefined}>
                  {PLACES[each]}
                </option>
              ))}
            </select>
          </label>
          <button type="button" className="button strong" disabled={!good} onClick={lay}>
            Lay it
          </button>
          <button
            type="button"
            className="button"
            onClick={() =>
              drawn.length === 0 ? notices.setState({ ground: { tool: 'points' } }) : setDrawn([])
            }
          >
            {drawn.length === 0 ? 'Leave' : 'Draw anew'}
          </button>
        </div>
      </section>
    </>
  );
}

/** A hand's own line, px, wherever it leads. */
const pathBy = (view: View, points: readonly Vec2[]): string =>
  points
    .map((p, i) => {
      const { x, y } = spotIn(view, p);
      return `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
    })
    .join('');
