import { type KeyboardEvent, type PointerEvent, useId, useMemo, useRef, useState } from 'react';
import { type Path, pathText } from '../../../shared/path.ts';
import { schemaAt } from '../../../shared/schema/describe.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { useBench, useDesk, useDocument, type Workbench } from '../../app/workbench.ts';
import { type Json, valueAt } from '../../documents/json.ts';
import { enter, moved, rangeWords, standardText, stepOfText, textOfValue } from './figure.ts';
import type { Field } from './layout.ts';
import { useWriter } from './writer.ts';

/** Pixels of drag for one step. */
const PIXELS_PER_STEP = 4;

/** Has a figure vary in the study; what does that is loaded when it is first wanted. */
const vary = async (bench: Workbench, path: Path): Promise<void> =>
  (await import('../../studying/bench.ts')).varyFigure(bench, path);

/** What the schema has against a value at this place; undefined when nothing. */
function complaint(document: Json, { path }: Field, value: Json | undefined): string | undefined {
  if (value === undefined) return undefined;
  const result = schemaAt(scenarioDocument, document, path)?.safeParse(value);
  return result === undefined || result.success ? undefined : result.error.issues[0]?.message;
}

const factorOf = (event: { shiftKey: boolean; altKey: boolean }): number =>
  event.shiftKey ? 10 : event.altKey ? 0.1 : 1;

/** Everything a field does to the document. */
function useField(field: Field) {
  const { documents } = useBench();
  const write = useWriter();
  const value = useDocument(({ raw }) => valueAt(raw, field.path));
  const written = useDocument((state) => valueAt(state.written, field.path));
  const [draft, setDraft] = useState<string>();
  const gesture = useRef(0);
  const shown = textOfValue(value, field.about);
  const place = pathText(field.path);

  const check = (text: string) => {
    const entered = enter(text, value, field.about);
    if (!entered.ok) return { message: entered.message, value: undefined };
    return { message: complaint(documents.getState().raw, field, entered.value), value: entered.value };
  };
  const message = draft === undefined || draft === shown ? undefined : check(draft).message;

  /** Puts a text into the document; one that is no good stays in the field with its problem. */
  const commit = (text: string, name?: string): boolean => {
    if (text.trim() === shown.trim()) {
      setDraft(undefined);
      return true;
    }
    const checked = check(text);
    if (checked.message !== undefined) {
      setDraft(text);
      return false;
    }
    setDraft(undefined);
    write(field.path, checked.value, name);
    return true;
  };
  /** Moves the figure by steps; all moves of one gesture are one edit to take back. */
  const move = (
    steps: number,
    from = draft ?? (shown === '' ? standardText(field.about) : shown),
    step?: number,
  ) => {
    const next = moved(from, steps, step);
    if (next !== undefined) commit(next, `${place} ${gesture.current}`);
  };
  const nextGesture = () => {
    gesture.current += 1;
  };
  return { value, written, draft, setDraft, shown, message, commit, move, nextGesture, place };
}

/** Drags on a label: each few pixels to the right are a step up. */
function useDrag({ move, shown, nextGesture }: ReturnType<typeof useField>, about: Field['about']) {
  const drag = useRef<{ x: number; text: string; step: number } | undefined>(undefined);
  const end = () => {
    if (drag.current !== undefined) nextGesture();
    drag.current = undefined;
  };
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      if (event.button !== 0) return;
      const text = shown === '' ? standardText(about) : shown;
      nextGesture();
      drag.current = { x: event.clientX, text, step: stepOfText(text) };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>) => {
      if (drag.current === undefined) return;
      const steps = Math.round((event.clientX - drag.current.x) / PIXELS_PER_STEP);
      move(steps * factorOf(event), drag.current.text, drag.current.step);
    },
    onPointerUp: end,
    onPointerCancel: end,
    onLostPointerCapture: end,
  };
}

/** What the document's check has against this figure, or against the point that it speaks for. */
function useOwnProblem({ path }: Field, speaksForPair: boolean): string | undefined {
  const problems = useDesk((desk) => desk.problems);
  return useMemo(() => {
    const places = [pathText(path), ...(speaksForPair ? [pathText(path.slice(0, -1))] : [])];
    return problems.find((each) => each.severity === 'error' && places.includes(each.path))?.message;
  }, [problems, path, speaksForPair]);
}

/** Enter takes the text, Escape drops it, arrows move the figure. */
function keysOf({ commit, move, setDraft }: ReturnType<typeof useField>) {
  return (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') commit(event.currentTarget.value);
    else if (event.key === 'Escape') setDraft(undefined);
    else if (event.key === 'ArrowUp') move(factorOf(event));
    else if (event.key === 'ArrowDown') move(-factorOf(event));
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
}

interface FigureFieldProps {
  readonly field: Field;
  readonly label: string;
  /** Name for screen readers: the part and what of it. */
  readonly name: string;
  /** Problems of the point that this figure is one half of are told here. */
  readonly speaksForPair?: boolean;
}

/** A figure that the builder may change: keeps what was typed, takes arithmetic and units, moves by keys and drag. */
export function FigureField({ field, label, name, speaksForPair = false }: FigureFieldProps) {
  const id = useId();
  const state = useField(field);
  const drag = useDrag(state, field.about);
  const own = useOwnProblem(field, speaksForPair);
  const { about } = field;
  const message = state.message ?? own;
  const range = rangeWords(about);
  const edited = state.value !== state.written;
  const bench = useBench();
  const [near, setNear] = useState(false);
  const keys = keysOf(state);
  const varies = about.dimension !== undefined && state.value !== undefined;
  return (
    <div className="figure" data-edited={edited} data-wrong={message !== undefined}>
      <label htmlFor={id} title={about.description} {...drag}>
        {label}
      </label>
      <input
        id={id}
        data-path={state.place}
        type="text"
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        aria-label={name}
        aria-invalid={message !== undefined}
        aria-describedby={message === undefined ? undefined : `${id}-problem`}
        title={[about.description, range === '' ? '' : `Range: ${range}.`].filter(Boolean).join('\n')}
        placeholder={standardText(about) || (about.optional ? 'left out' : '')}
        value={state.draft ?? state.shown}
        onChange={(event) => state.setDraft(event.currentTarget.value)}
        onFocus={() => {
          setNear(true);
          state.nextGesture();
        }}
        onBlur={(event) => {
          setNear(false);
          if (state.draft !== undefined) state.commit(event.currentTarget.value);
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && event.altKey && varies) void vary(bench, field.path);
          else keys(event);
        }}
      />
      {near && varies ? (
        <button
          type="button"
          className="button small vary"
          // It shows while the keyboard is in the field, and Alt+Enter does the same there.
          tabIndex={-1}
          title="Vary this in a study (Alt+Enter)"
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => void vary(bench, field.path)}
        >
          Vary
        </button>
      ) : null}
      {message === undefined ? null : (
        <p className="field-problem" id={`${id}-problem`} role="alert">
          {message}
        </p>
      )}
    </div>
  );
}
