import { useEffect, useId, useMemo, useState } from 'react';
import type { Problem } from '../../shared/problem.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { knobsOf } from '../../sim/tuning/numbers.ts';
import { useDesk, useNotice, useSettings } from '../app/workbench.ts';
import {
  type NumberDraft,
  type Spacing,
  type StudyDraft,
  spaced,
  spacingOf,
  spacings,
  withKnob,
  withNumber,
} from './draft.ts';
import type { Tuning } from './session.ts';

interface Props {
  readonly tuning: Tuning;
  readonly study: StudyDraft;
}

const spacingWords: Readonly<Record<Spacing, string>> = {
  steps: 'values',
  step: 'step',
  pitch: 'multiples of',
  any: 'any value',
};

interface EntryProps {
  readonly label: string;
  readonly name: string;
  readonly value: string;
  readonly wrong: boolean;
  readonly onTake: (text: string) => void;
}

/** A field that takes its text when it is left or Enter is pressed. */
function Entry({ label, name, value, wrong, onTake }: EntryProps) {
  const id = useId();
  const [draft, setDraft] = useState<string>();
  useEffect(() => setDraft((now) => (now === value ? undefined : now)), [value]);
  const take = (): void => {
    if (draft !== undefined && draft.trim() !== value) onTake(draft.trim());
    setDraft(undefined);
  };
  return (
    <div className="figure" data-wrong={wrong}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        aria-label={`${name}: ${label}`}
        aria-invalid={wrong}
        value={draft ?? value}
        onChange={(event) => setDraft(event.currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          else if (event.key === 'Escape') setDraft(undefined);
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
    </div>
  );
}

const nameOf = ({ name, knob, of }: NumberDraft): string => name ?? knob ?? [of ?? ''].flat().join(', ');

interface RowProps extends Props {
  readonly number: NumberDraft;
  readonly index: number;
  readonly problems: readonly Problem[];
}

/** One number: its ends, how its values lie between them, and the way to leave it out. */
function Row({ tuning, study, number, index, problems }: RowProps) {
  const name = nameOf(number);
  const pitch = useSettings((state) => state.pitch) || '1 mm';
  const spacing = spacingOf(number);
  const put = (next: NumberDraft | undefined) => tuning.write(withNumber(study, index, next));
  const wrong = (field: string) => problems.some(({ path }) => path === `vary[${index}].${field}`);
  const spacer = spacing === 'steps' ? number.steps : spacing === 'step' ? number.step : number.pitch;
  return (
    <li className="number">
      <div className="number-name">
        <span>{name}</span>
        <button
          type="button"
          className="button small bare"
          aria-label={`Do not vary ${name}`}
          title="Do not vary"
          onClick={() => put(undefined)}
        >
          ×
        </button>
      </div>
      {number.values === undefined ? (
        <div className="number-fields">
          <Entry
            label="from"
            name={name}
            value={String(number.from ?? '')}
            wrong={wrong('from')}
            onTake={(from) => put({ ...number, from })}
          />
          <Entry
            label="to"
            name={name}
            value={String(number.to ?? '')}
            wrong={wrong('to')}
            onTake={(to) => put({ ...number, to })}
          />
          <select
            aria-label={`${name}: how its values lie`}
            value={spacing}
            onChange={(event) => put(spaced(number, event.currentTarget.value as Spacing, pitch))}
          >
            {spacings.map((each) => (
              <option key={each} value={each}>
                {spacingWords[each]}
              </option>
            ))}
          </select>
          {spacing === 'any' ? null : (
            <Entry
              label=""
              name={`${name}: ${spacingWords[spacing]}`}
              value={String(spacer ?? '')}
              wrong={wrong(spacing)}
              onTake={(text) => put({ ...number, [spacing]: spacing === 'steps' ? Number(text) : text })}
            />
          )}
        </div>
      ) : (
        <Entry
          label="list"
          name={name}
          value={number.values
            .map((value) => (typeof value === 'string' ? value : JSON.stringify(value)))
            .join(', ')}
          wrong={problems.some(({ path }) => path.startsWith(`vary[${index}].values`))}
          onTake={(text) => put({ ...number, values: text.split(',').map((each) => each.trim()) })}
        />
      )}
    </li>
  );
}

/** What the pivot that was taken up last on the picture can be varied by. */
function Picked({
  scenario,
  onVary,
}: {
  readonly scenario: Scenario;
  readonly onVary: (name: string) => void;
}) {
  const picked = useNotice((state) => state.picked);
  const names = useMemo(() => {
    if (picked === undefined) return [];
    const head = picked.replace(/: .*/, '');
    return knobsOf(scenario)
      .map(({ name }) => name)
      .filter((name) => name.startsWith(`${head}:`));
  }, [scenario, picked]);
  if (names.length === 0) return null;
  return (
    <fieldset className="picked-numbers">
      <legend className="soft">On the picture: {picked}</legend>
      {names.map((name) => (
        <button key={name} type="button" className="button small" onClick={() => onVary(name)}>
          Vary {name.replace(/^[^:]*: /, '')}
        </button>
      ))}
    </fieldset>
  );
}

/** The numbers that vary, and ways to choose more of them. */
export function Numbers({ tuning, study, problems }: Props & { readonly problems: readonly Problem[] }) {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const size = useDesk(({ drawn }) => drawn?.mechanism.size);
  const [wanted, setWanted] = useState('');
  const id = useId();
  const names = useMemo(
    () => (scenario === undefined ? [] : knobsOf(scenario).map(({ name }) => name)),
    [scenario],
  );
  if (scenario === undefined || size === undefined) return null;
  const vary = (name: string): void => {
    const next = withKnob(study, scenario, name, size);
    if (next === study) return;
    tuning.write(next);
    setWanted('');
  };
  return (
    <section className="measure">
      <h3>What varies</h3>
      {study.vary.length > 0 ? null : (
        <p className="soft">
          Choose a number below, or take up a pivot on the picture while the vehicle stands or crawls.
        </p>
      )}
      <ol className="numbers">
        {study.vary.map((number, index) => (
          <Row
            key={nameOf(number)}
            tuning={tuning}
            study={study}
            number={number}
            index={index}
            problems={problems}
          />
        ))}
      </ol>
      <Picked scenario={scenario} onVary={vary} />
      <form
        className="picker"
        onSubmit={(event) => {
          event.preventDefault();
          vary(wanted);
        }}
      >
        <label htmlFor={id} className="unseen">
          Number to vary
        </label>
        <input
          id={id}
          list={`${id}-all`}
          type="text"
          className="wide"
          autoComplete="off"
          placeholder="pivot, length, stiffness …"
          value={wanted}
          onChange={(event) => setWanted(event.currentTarget.value)}
        />
        <datalist id={`${id}-all`}>
          {names.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
        <button type="submit" className="button" disabled={!names.includes(wanted)}>
          Vary this
        </button>
      </form>
    </section>
  );
}
