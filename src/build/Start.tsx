import { useEffect, useRef, useState } from 'react';
import { evaluateField, toUnit } from '../../shared/units.ts';
import { pickAndOpen, takeDemo } from '../app/actions.ts';
import { takeText } from '../app/take.ts';
import { useBench } from '../app/workbench.ts';
import { demos } from '../documents/demos.ts';
import type { LayoutSize } from '../edits/layouts/layout.ts';
import { startingLayouts } from '../edits/layouts/registry.ts';
import { unlessLost } from '../keeping/opening.ts';

/** The few figures that a starting layout is made from, as they are typed. */
const FIGURES = [
  { key: 'wheelRadius', label: 'Radius of the wheels', unit: 'mm', dimension: 'length' },
  { key: 'wheelbase', label: 'Foremost to rearmost axle or bogie', unit: 'mm', dimension: 'length' },
  { key: 'mass', label: 'Mass of the whole', unit: 'kg', dimension: 'mass' },
  { key: 'scale', label: 'Scale, 1 to', unit: '1', dimension: 'ratio' },
] as const;

type Key = (typeof FIGURES)[number]['key'];

/** Scale that is offered, 1 to: a usual one of such models. */
const USUAL_SCALE = 14;

/** An SI figure as it is offered in a field. */
const textOf = (si: number, unit: string): string =>
  unit === '1' ? String(si) : `${Number(toUnit(si, unit).toPrecision(6))} ${unit}`;

/** What was typed as figures in SI, or the label of the first that is none. */
function sizeOf(texts: Readonly<Record<Key, string>>): LayoutSize | string {
  const size: Partial<Record<Key, number>> = {};
  for (const { key, label, unit, dimension } of FIGURES) {
    const read = evaluateField(texts[key], dimension, unit);
    if (!read.ok || !(read.value > 0)) return label;
    size[key] = read.value;
  }
  return size as Required<LayoutSize>;
}

/** From a starting layout: wheels, beams and springs for a few figures, to be changed from there. */
function FromLayout() {
  const bench = useBench();
  const [layout, setLayout] = useState<string>(startingLayouts[0].id);
  const [typed, setTyped] = useState<Partial<Record<Key, string>>>({});
  const usual = startingLayouts.find(({ id }) => id === layout)?.usual;
  const texts = Object.fromEntries(
    FIGURES.map(({ key, unit }) => [key, typed[key] ?? textOf(usual?.[key] ?? USUAL_SCALE, unit)]),
  ) as Record<Key, string>;
  const size = sizeOf(texts);
  const begin = (): void => {
    const chosen = startingLayouts.find(({ id }) => id === layout);
    if (chosen === undefined || typeof size === 'string') return;
    const text = `${JSON.stringify(chosen.make(size), null, 2)}\n`;
    unlessLost(bench, () => takeText(bench, `${chosen.id}.json`, text));
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        begin();
      }}
    >
      <h3>Make one</h3>
      <fieldset className="layouts">
        <legend className="unseen">Layout</legend>
        {startingLayouts.map(({ id, title, says }) => (
          <label key={id}>
            <input type="radio" name="layout" checked={layout === id} onChange={() => setLayout(id)} />
            <span>
              {title} <span className="soft">{says}</span>
            </span>
          </label>
        ))}
      </fieldset>
      {FIGURES.map(({ key, label }) => (
        <label key={key}>
          <span>{label}</span>
          <input
            type="text"
            autoComplete="off"
            spellCheck={false}
            aria-invalid={size === label}
            value={texts[key]}
            onChange={({ currentTarget }) => setTyped({ ...typed, [key]: currentTarget.value })}
          />
        </label>
      ))}
      {typeof size === 'string' ? (
        <p className="field-problem" role="alert">
          {size}: a figure above nought is needed, with its unit.
        </p>
      ) : null}
      <button type="submit" className="button strong" disabled={typeof size === 'string'}>
        Begin with this
      </button>
      <p className="soft">
        From a photograph or a drawing: begin with what comes near, then lay the picture under it with Picture
        in the bar above, scale it by two points, and drag axles and pivots onto it.
      </p>
    </form>
  );
}

/** Three ways to begin. Nothing is stopped while it is open; what was open stays until something is chosen. */
export function Start({ onLeave }: { readonly onLeave: (() => void) | undefined }) {
  const bench = useBench();
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    section.current?.querySelector<HTMLElement>('input')?.focus();
  }, []);
  return (
    <section className="start" aria-label="Begin a vehicle" ref={section}>
      <h2>Begin a vehicle</h2>
      <div>
        <FromLayout />
        <section>
          <h3>Change one that runs</h3>
          {demos.map((demo) => (
            <button
              key={demo.name}
              type="button"
              className="menu-item"
              onClick={() => void takeDemo(bench, demo)}
            >
              <span>{demo.title}</span>
              <span className="file-name">{demo.name}</span>
            </button>
          ))}
        </section>
        <section>
          <h3>Open a file</h3>
          <p className="soft">A scenario that was saved before. It can be dropped onto the window too.</p>
          <button type="button" className="button" onClick={() => void pickAndOpen(bench)}>
            Open a file
          </button>
          {onLeave === undefined ? null : (
            <p>
              <button type="button" className="button" onClick={onLeave}>
                Go on with what is open
              </button>
            </p>
          )}
        </section>
      </div>
    </section>
  );
}
