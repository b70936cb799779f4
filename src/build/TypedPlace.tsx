import { type FormEvent, useEffect, useId, useState } from 'react';
import { describeField } from '../../shared/schema/describe.ts';
import { evaluateField } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { useBench, useDocument } from '../app/workbench.ts';
import { valueAt } from '../documents/json.ts';
import type { Handle } from '../edits/edit.ts';
import { type MoveOptions, movePoint, turnAngle } from '../edits/move.ts';
import { fieldUnit, textOfValue } from '../panels/fields/figure.ts';
import { useBuild } from './build.ts';
import { type BesideProps, useBeside } from './HandleNote.tsx';

interface TypedPlaceProps extends BesideProps {
  readonly handle: Handle;
  readonly manner: MoveOptions;
  readonly onClose: () => void;
}

/** What is typed at a handle: the two figures of a point, or an angle. */
function useRows({ path, kind }: Handle) {
  const raw = useDocument((state) => state.raw);
  const rows =
    kind === 'angle' ? [{ key: 'angle', at: path }] : ['x', 'z'].map((key) => ({ key, at: [...path, key] }));
  return rows.map(({ key, at }) => {
    const about = describeField(scenarioDocument, raw, at) ?? { optional: false, takes: 'figure' as const };
    const value = valueAt(raw, at);
    return { key, about, value, text: textOfValue(value, about) };
  });
}

/** Typed values at a handle: with units, taken with Enter, dropped with Escape. What hangs there goes along. */
export function TypedPlace({ handle, manner, onClose, ...beside }: TypedPlaceProps) {
  const { documents } = useBench();
  const { apply } = useBuild();
  const rows = useRows(handle);
  const [texts, setTexts] = useState<readonly string[]>(() => rows.map(({ text }) => text));
  const [wrong, setWrong] = useState<string>();
  const element = useBeside(beside, handle.at);
  const id = useId();
  useEffect(() => {
    element.current?.querySelector('input')?.select();
  }, [element]);

  const take = (event: FormEvent): void => {
    event.preventDefault();
    const read = rows.map(({ about, value }, i) =>
      evaluateField(texts[i] ?? '', about.dimension ?? 'length', fieldUnit(value, about)),
    );
    const bad = read.find((each) => !each.ok);
    if (bad !== undefined && !bad.ok) {
      setWrong(bad.hint === undefined ? bad.message : `${bad.message}: ${bad.hint}`);
      return;
    }
    const [x = 0, z = 0] = read.map((each) => (each.ok ? each.value : 0));
    const { raw } = documents.getState();
    apply(
      handle.kind === 'angle'
        ? turnAngle(raw, handle.path, x)
        : movePoint(raw, handle.path, { x, z }, manner),
    );
    onClose();
  };
  return (
    <form
      className="handle-note typed-place"
      ref={element}
      aria-label={`Place of ${handle.label}`}
      onSubmit={take}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.preventDefault();
        event.stopPropagation();
        onClose();
      }}
    >
      <p className="handle-name">{handle.label}</p>
      {rows.map(({ key, text }, i) => (
        <label key={key}>
          <span>{key}</span>
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
