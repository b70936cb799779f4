import {
  type KeyboardEvent,
  type RefObject,
  useCallback,
  useEffect,
  useId,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { ownFigures, scaleWords } from '../../shared/units.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk, useSettings } from '../app/workbench.ts';
import type { Seen, Sight } from '../canvas/sight.ts';
import type { Look, Solved } from '../solved.ts';
import { factsOf, factWords, spoken } from './facts.ts';
import { boxOf, type Thing, thingsOf } from './things.ts';
import { toggleLine, useLines } from './useLines.ts';
import { usePointing } from './usePointing.ts';
import './reading.css';

interface ReadingProps {
  /** The run whose figures are shown. */
  readonly solved: Solved | null;
  readonly sight: Sight;
  /** The element that the picture lies in. */
  readonly field: RefObject<HTMLElement | null>;
  readonly look: Look;
  /** Only what the pointer is over, without a list of its own: where something else is selected by click and key. */
  readonly passing?: boolean;
}

/** Air between a thing and its card, and between the card and the picture's edge, px. */
const AIR = { thing: 18, edge: 8, top: 44 } as const;

interface Rect {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A thing's box on the picture, px from its corner. */
function rectOf(thing: Thing, { view, poses }: Seen): Rect | undefined {
  const box = boxOf(thing, poses);
  if (box === undefined) return undefined;
  return {
    left: view.left + box.xMin * view.scale,
    right: view.left + box.xMax * view.scale,
    top: view.top - box.zMax * view.scale,
    bottom: view.top - box.zMin * view.scale,
  };
}

const clamp = (value: number, least: number, most: number): number =>
  Math.max(least, Math.min(Math.max(least, most), value));

/** Where a card of this size goes: right of the thing, left of it, above it or below; in a corner where none has room. */
export function cardPlace(
  thing: Rect,
  card: { readonly width: number; readonly height: number },
  field: { readonly width: number; readonly height: number },
): { readonly x: number; readonly y: number } {
  const middle = clamp(
    (thing.top + thing.bottom - card.height) / 2,
    AIR.top,
    field.height - card.height - AIR.edge,
  );
  const centre = clamp(
    (thing.left + thing.right - card.width) / 2,
    AIR.edge,
    field.width - card.width - AIR.edge,
  );
  if (thing.right + AIR.thing + card.width + AIR.edge <= field.width)
    return { x: Math.max(AIR.edge, thing.right + AIR.thing), y: middle };
  if (thing.left - AIR.thing - card.width >= AIR.edge)
    return { x: thing.left - AIR.thing - card.width, y: middle };
  if (thing.top - AIR.thing - card.height >= AIR.top)
    return { x: centre, y: thing.top - AIR.thing - card.height };
  if (thing.bottom + AIR.thing + card.height + AIR.edge <= field.height)
    return { x: centre, y: thing.bottom + AIR.thing };
  return { x: field.width - card.width - AIR.edge, y: AIR.top };
}

/** Puts ring and card where their thing is. */
function lay(ring: HTMLElement | null, card: HTMLElement | null, thing: Thing, seen: Seen | undefined): void {
  const rect = seen === undefined ? undefined : rectOf(thing, seen);
  for (const part of [ring, card])
    if (part !== null) part.style.visibility = rect === undefined ? 'hidden' : '';
  if (rect === undefined || seen === undefined) return;
  if (ring !== null) {
    const room = 6;
    ring.style.transform = `translate(${Math.round(rect.left - room)}px, ${Math.round(rect.top - room)}px)`;
    ring.style.width = `${Math.round(rect.right - rect.left + 2 * room)}px`;
    ring.style.height = `${Math.round(rect.bottom - rect.top + 2 * room)}px`;
  }
  if (card === null) return;
  const { x, y } = cardPlace(rect, { width: card.offsetWidth, height: card.offsetHeight }, seen.view.size);
  card.style.setProperty('--at', `translate(${Math.round(x)}px, ${Math.round(y)}px)`);
}

/** The frame that the picture shows. */
function useFrame(sight: Sight): number {
  return useSyncExternalStore(
    (tell) => sight.watch(tell),
    () => sight.now?.frame ?? 0,
  );
}

interface CardProps {
  readonly solved: Solved;
  readonly sight: Sight;
  readonly thing: Thing;
  /** Other things at the same place. */
  readonly also: readonly Thing[];
  readonly look: Look;
  /** It stays, and its lines can be added. */
  readonly held: boolean;
  readonly onPick: (thing: Thing) => void;
  readonly onClose: () => void;
}

/** Figures of one thing in the frame on show. */
function Card({ solved, sight, thing, also, look, held, onPick, onClose }: CardProps) {
  const bench = useBench();
  const ring = useRef<HTMLDivElement>(null);
  const card = useRef<HTMLElement>(null);
  const frame = useFrame(sight);
  const lines = useLines();
  const building = useSettings((state) => state.building);
  const showing = look.showing ?? ownFigures;
  const facts = factsOf(solved, thing, frame);
  useLayoutEffect(() => lay(ring.current, card.current, thing, sight.now));
  useEffect(() => sight.watch((seen) => lay(ring.current, card.current, thing, seen)), [sight, thing]);
  return (
    <>
      <div className="thing-ring" ref={ring} aria-hidden="true" />
      <section
        className="thing-card"
        ref={card}
        data-held={held}
        aria-label={`Figures of ${thing.name}`}
        onKeyDown={(event) => {
          if (event.key !== 'Escape') return;
          event.preventDefault();
          onClose();
        }}
      >
        <header>
          <b>{thing.name}</b> <span className="soft">{thing.sort}</span>
          {held ? (
            <button
              type="button"
              className="button icon-only bare"
              aria-label="Close the card"
              onClick={onClose}
            >
              <Icon name="cross" />
            </button>
          ) : null}
        </header>
        {facts.length === 0 ? <p className="soft">This run has no figures of it.</p> : null}
        <dl>
          {facts.map((fact) => (
            <div key={fact.title}>
              <dt>{fact.title}</dt>
              <dd>
                {factWords(fact, showing)}
                {held && !building && fact.line !== undefined ? (
                  <button
                    type="button"
                    className="line-switch"
                    aria-pressed={lines.includes(fact.line)}
                    aria-label={`Line of ${fact.title} under the strips`}
                    title={
                      lines.includes(fact.line)
                        ? 'Take its line away from the strips'
                        : 'Draw it as a line under the strips'
                    }
                    onClick={() => fact.line !== undefined && toggleLine(bench, fact.line)}
                  >
                    <Icon name={lines.includes(fact.line) ? 'minus' : 'plus'} />
                  </button>
                ) : null}
              </dd>
            </div>
          ))}
        </dl>
        {also.length === 0 ? null : (
          <p className="also">
            <span className="soft">Also here:</span>{' '}
            {also.map((other) =>
              held ? (
                <button
                  key={`${other.kind} ${other.name}`}
                  type="button"
                  className="jump"
                  onClick={() => onPick(other)}
                >
                  {other.name}, {other.sort}
                </button>
              ) : (
                <span key={`${other.kind} ${other.name}`}>{`${other.name}, ${other.sort}; `}</span>
              ),
            )}
          </p>
        )}
      </section>
    </>
  );
}

const steps: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

interface ListProps extends Pick<CardProps, 'solved' | 'sight' | 'look'> {
  readonly things: readonly Thing[];
  readonly active: Thing | undefined;
  readonly onActive: (thing: Thing | undefined) => void;
  readonly onEnter: () => void;
}

/** Everything on the picture as a list for the keyboard: one stop of Tab, arrow keys go from thing to thing. */
function ThingList({ solved, sight, look, things, active, onActive, onEnter }: ListProps) {
  const id = useId();
  const frame = useFrame(sight);
  const at = active === undefined ? -1 : things.indexOf(active);
  const key = (event: KeyboardEvent): void => {
    const step = steps[event.key];
    const to =
      step !== undefined
        ? (at + step + things.length) % things.length
        : event.key === 'Home'
          ? 0
          : event.key === 'End'
            ? things.length - 1
            : undefined;
    if (to !== undefined) onActive(things[to]);
    else if (event.key === 'Escape' && active !== undefined) onActive(undefined);
    else if (event.key === 'Enter') onEnter();
    else return;
    event.preventDefault();
  };
  return (
    <div
      className="thing-list"
      role="listbox"
      aria-label="Things on the picture"
      aria-activedescendant={at < 0 ? undefined : `${id}-${at}`}
      tabIndex={0}
      onKeyDown={key}
      onFocus={() => active === undefined && onActive(things[0])}
      onBlur={(event) => {
        const card = event.currentTarget.parentElement?.querySelector('.thing-card');
        if (card?.contains(event.relatedTarget) !== true) onActive(undefined);
      }}
    >
      <span className="thing-list-words" aria-hidden="true">
        Things on the picture: arrow keys, Enter for the card
      </span>
      {things.map((thing, i) => (
        <div
          key={`${thing.kind} ${thing.name}`}
          id={`${id}-${i}`}
          role="option"
          tabIndex={-1}
          aria-selected={thing === active}
          className="unseen"
        >
          {thing === active
            ? spoken(thing, factsOf(solved, thing, frame), look.showing ?? ownFigures)
            : `${thing.name}, ${thing.sort}`}
        </div>
      ))}
    </div>
  );
}

/** Says that figures are not the document's own, while they are not. */
function FullSizeMark({ look }: { readonly look: Look }) {
  const scale = useDesk(({ drawn }) => drawn?.scenario.vehicle.scale) ?? 1;
  if ((look.showing?.scale ?? 1) === 1) return null;
  return (
    <p className="full-size-mark" role="note">
      <b>Full size</b> of a {scaleWords(scale)} model: its figures scaled by Froude's rule, lengths ×{scale},
      forces ×{scale}³, times ×√{scale}. Not a run of the full-size vehicle.
    </p>
  );
}

/** Figures of the things on the picture: under the pointer, held by a press or tap, or one by one with the keyboard. */
export function Reading({ solved, sight, field, look, passing = false }: ReadingProps) {
  const mechanism = solved?.mechanism;
  const things = useMemo(() => (mechanism === undefined ? [] : thingsOf(mechanism)), [mechanism]);
  const pointed = usePointing({ field, sight, things, hold: !passing });
  const [listed, setListed] = useState<Thing>();
  // Things are made anew with each run: the one that is held is known by its name.
  const now = (thing: Thing | undefined): Thing | undefined =>
    thing && things.find(({ kind, name }) => kind === thing.kind && name === thing.name);
  const { held, release } = pointed;
  const isListed = listed !== undefined;
  const close = useCallback(() => {
    release();
    // Back to the list that the card was entered from, which goes on showing its thing until it is left.
    if (isListed) field.current?.querySelector<HTMLElement>('.thing-list')?.focus();
  }, [release, field, isListed]);
  const shown = now(listed) ?? now(held) ?? now(pointed.over[0]);
  if (solved === null || solved.recording.frames === 0) return null;
  const isHeld = listed !== undefined || held !== undefined;
  const near = listed !== undefined ? [] : held !== undefined ? pointed.around : pointed.over;
  return (
    <div className="reading">
      {passing || things.length === 0 ? null : (
        <ThingList
          solved={solved}
          sight={sight}
          look={look}
          things={things}
          active={now(listed)}
          onActive={setListed}
          onEnter={() => field.current?.querySelector<HTMLElement>('.thing-card button')?.focus()}
        />
      )}
      {shown === undefined ? null : (
        <Card
          solved={solved}
          sight={sight}
          thing={shown}
          also={near.flatMap((each) => now(each) ?? []).filter((each) => each !== shown)}
          look={look}
          held={isHeld}
          onPick={(thing) => (listed === undefined ? pointed.take(thing) : setListed(thing))}
          onClose={close}
        />
      )}
      <FullSizeMark look={look} />
    </div>
  );
}
