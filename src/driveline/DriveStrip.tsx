import {
  type KeyboardEvent,
  type ReactNode,
  useCallback,
  useDeferredValue,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { pathText } from '../../shared/path.ts';
import { useBench, useDesk, useDocument, useSelection, useSettings } from '../app/workbench.ts';
import type { Building } from '../build/build.ts';
import type { Seen, Sight } from '../canvas/sight.ts';
import { palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';
import { select } from '../store/selection.ts';
import type { CellWishes } from './Cell.tsx';
import { Diagram } from './Diagram.tsx';
import { acrossDrawn, acrossOf, bodyFinder, draw } from './draw.ts';
import { Head } from './Head.tsx';
import { partFrom } from './keys.ts';
import { type Layout, layoutOf, planOf } from './layout.ts';
import { Mark } from './Mark.tsx';
import { PartNote } from './PartNote.tsx';
import { placesOf } from './places.ts';
import { cellLabel, type Shown, showUse } from './show.ts';
import { treeOf } from './tree.ts';
import { useBrokenParts } from './useBrokenParts.ts';
import { useHands } from './useHands.ts';
import { usesOf, worstOf } from './uses.ts';
import './driveline.css';

interface DriveStripProps {
  readonly look: Look;
  /** The picture that the strip is lined up with, and the element that it fills. */
  readonly sight: Sight;
  readonly picture: HTMLElement | null;
  /** There when parts can be changed: then the strip tells the worst of the crossing, as nothing moves. */
  readonly building?: Building;
  /** What stands at the end of its head. */
  readonly tools?: (hang: { readonly on: boolean; readonly toggle: () => void }) => ReactNode;
  /** Step of moves by key, m. */
  readonly step?: () => number;
}

/** Width of an element, px, as it changes. */
function useWidth() {
  const host = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = host.current;
    if (element === null) return undefined;
    const measure = () => setWidth(element.clientWidth);
    const sizes = new ResizeObserver(measure);
    sizes.observe(element);
    measure();
    return () => sizes.disconnect();
  }, []);
  return { host, width };
}

/** What takes presses and the keyboard in a cell. */
const pressOf = (cell: Element | undefined): SVGElement | null | undefined =>
  cell?.querySelector<SVGElement>('.drive-press');

/** Everything about the drive line that is known: its tree, where parts sit, what they use. */
function useDriveLine(width: number) {
  const raw = useDocument((state) => state.raw);
  const tree = useMemo(() => treeOf(raw), [raw]);
  const places = useMemo(() => placesOf(tree), [tree]);
  const plan = useMemo(() => planOf(tree, places, width), [tree, places, width]);
  const mechanism = useDesk(({ drawn }) => drawn?.mechanism);
  // While something is dragged the drawing goes first, figures come as soon as there is time.
  const solved = useDeferredValue(useDesk((state) => state.solved));
  const uses = useMemo(() => usesOf(solved), [solved]);
  const worst = useMemo(() => worstOf(solved?.report), [solved]);
  const broken = useBrokenParts(tree);
  return { raw, tree, places, plan, mechanism, uses, worst, broken };
}

/** The drive line drawn under the picture, every part at its place along the vehicle, with what it uses of its limit. */
export function DriveStrip({ look, sight, picture, building, tools, step }: DriveStripProps) {
  const { selection, settings, playhead } = useBench();
  const { host, width } = useWidth();
  const line = useDriveLine(width);
  const { raw, tree, places, mechanism, uses, worst, broken } = line;
  const open = useSettings((state) => state.driveLine);
  const entry = useSelection((state) => state.entry);
  const [about, setAbout] = useState<number>();
  const [hanging, setHanging] = useState<number>();
  const [active, setActive] = useState(0);
  // The frame that the note tells of.
  const [, tellOf] = useState(0);
  const svg = useRef<SVGSVGElement>(null);
  const layout = useRef<Layout | undefined>(undefined);
  const [cells] = useState(() => new Map<number, SVGGElement>());
  const hands = useHands({ building, tree, places, layout, svg, sight });
  // While a part is in hand no row comes or goes.
  const [kept, keepPlan] = useState(line.plan);
  if (hands.hand === undefined && kept !== line.plan) keepPlan(line.plan);
  const plan = hands.hand !== undefined && kept.rowOf.length === tree.parts.length ? kept : line.plan;
  const palette = palettes[look.theme];
  const chosen = tree.parts.find(
    ({ path }) => entry !== undefined && pathText(path) === pathText(entry),
  )?.index;

  const shownOf = (index: number): Shown => {
    const name = tree.parts[index]?.name;
    const line = worst.get(index);
    const now = building !== undefined || uses?.part(index)?.name !== name ? undefined : uses?.now(index);
    const last = line === undefined || line.line.of !== name ? undefined : (line.use ?? Number.NaN);
    return { now: now?.use, worst: last };
  };
  const show = useRef<(seen: Seen | undefined) => void>(() => undefined);
  show.current = (seen) => {
    if (svg.current === null || width === 0) return;
    const across =
      seen === undefined
        ? acrossDrawn(tree, places, width)
        : acrossOf(tree, places, seen, bodyFinder(mechanism));
    layout.current = hands.held() ?? layoutOf(plan, across.parts, across.wheels);
    draw({ svg: svg.current, cells, layout: layout.current }, tree, about ?? chosen);
    uses?.show(building === undefined ? (seen?.frame ?? playhead.frame) : 0);
    for (const part of tree.parts) {
      const cell = cells.get(part.index);
      const use = shownOf(part.index);
      if (cell === undefined) continue;
      showUse(cell, use, palette);
      pressOf(cell)?.setAttribute('aria-label', cellLabel(part, use, broken.get(part.index)));
    }
    if (about !== undefined) tellOf(seen?.frame ?? playhead.frame);
  };
  useLayoutEffect(() => show.current(sight.now));
  useEffect(() => sight.watch((seen) => show.current(seen)), [sight]);
  useEffect(
    () => playhead.watch(() => sight.now === undefined && show.current(undefined)),
    [sight, playhead],
  );

  const focus = (index: number): void => {
    setActive(index);
    pressOf(cells.get(index))?.focus({ preventScroll: true });
    cells.get(index)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  };
  const choose = (index: number): void => {
    const part = tree.parts[index];
    if (part !== undefined) select(selection, part.path);
    focus(index);
  };
  const press = (index: number): void => {
    if (hanging === undefined || hanging === index) {
      choose(index);
      return;
    }
    hands.hang(hanging, { part: index });
    setHanging(undefined);
  };
  const onKey = (event: KeyboardEvent<SVGGElement>, index: number): void => {
    if (event.ctrlKey || event.metaKey) return;
    const sideways = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : undefined;
    if (event.altKey) {
      if (sideways === undefined || building === undefined || step === undefined) return;
      hands.nudge(index, sideways, step());
    } else if (event.key === 'Enter' || event.key === ' ') press(index);
    else if (event.key === 'Escape' && hanging !== undefined) setHanging(undefined);
    else {
      const to =
        layout.current === undefined ? undefined : partFrom(event.key, index, tree, plan, layout.current);
      const moves = /^(Arrow|Home$|End$)/.test(event.key);
      if (!moves) return;
      if (to !== undefined && hanging === undefined) choose(to);
      else if (to !== undefined) focus(to);
    }
    event.preventDefault();
    event.stopPropagation();
  };
  const latest = useRef({ press, onKey, down: hands.down });
  latest.current = { press, onKey, down: hands.down };
  const wishes = useMemo<CellWishes>(
    () => ({
      down: (event, index) => {
        if (event.button > 0) return;
        latest.current.press(index);
        latest.current.down(event, index);
      },
      key: (event, index) => latest.current.onKey(event, index),
      about: setAbout,
    }),
    [],
  );
  const keep = useCallback(
    (index: number) => (element: SVGGElement | null) => {
      if (element === null) cells.delete(index);
      else cells.set(index, element);
    },
    [cells],
  );
  const toggle = (): void => setHanging((now) => (now === undefined ? chosen : undefined));
  const marked = about === undefined ? entry : tree.parts[about]?.path;
  const seen = about === undefined ? undefined : tree.parts[about];
  const same = seen !== undefined && uses?.part(seen.index)?.name === seen.name;
  return (
    <section className="drive-strip" aria-label="Drive line" data-open={open}>
      <Head
        look={look}
        tree={tree}
        worst={worst}
        broken={broken}
        open={open}
        onOpen={() => settings.setState({ driveLine: !open })}
        onWorst={choose}
        still={building !== undefined}
      >
        {tools?.({ on: hanging !== undefined, toggle })}
      </Head>
      <div className="drive-body" ref={host} hidden={!open}>
        {width === 0 ? null : (
          <Diagram
            tree={tree}
            plan={plan}
            svg={svg}
            chosen={chosen}
            active={tree.parts[active] === undefined ? (plan.rows[0]?.[0] ?? 0) : active}
            broken={broken}
            hand={hands.hand}
            wishes={wishes}
            keep={keep}
            onMove={hands.move}
            onUp={hands.up}
            onLost={hands.lost}
          />
        )}
      </div>
      {hanging === undefined ? null : (
        <p className="drive-hanging" role="status">
          Hang {tree.parts[hanging]?.name ?? ''} on which part? Press it, or go there with the arrow keys and
          press Enter. Escape leaves it where it is.
        </p>
      )}
      {seen === undefined || hands.hand !== undefined || !open ? null : (
        <PartNote
          part={seen}
          built={same ? uses?.part(seen.index) : undefined}
          now={same && building === undefined ? uses?.now(seen.index) : undefined}
          worst={worst.get(seen.index)?.line.of === seen.name ? worst.get(seen.index) : undefined}
          broken={broken.get(seen.index)}
          x={layout.current?.parts[seen.index]?.x ?? 0}
          width={width}
        />
      )}
      {marked === undefined || mechanism === undefined || picture === null ? null : (
        <Mark
          document={raw}
          mechanism={mechanism}
          tree={tree}
          places={places}
          entry={marked}
          sight={sight}
          picture={picture}
          faint={about !== undefined}
        />
      )}
    </section>
  );
}
