import { useId, useState } from 'react';
import { type Path, pathText } from '../../shared/path.ts';
import type { FieldAbout } from '../../shared/schema/describe.ts';
import { useDesk, useDocument } from '../app/workbench.ts';
import { valueAt } from '../documents/json.ts';
import { standardText } from '../panels/fields/figure.ts';
import { useWriter } from '../panels/fields/writer.ts';
import { useBuild } from './build.ts';

interface FieldProps {
  readonly path: Path;
  readonly label: string;
  /** What it belongs to, for screen readers. */
  readonly part: string;
  readonly about: FieldAbout;
}

/** What the document's check has against this place. */
function useProblem(path: Path): string | undefined {
  const place = pathText(path);
  return useDesk(
    ({ problems }) => problems.find((each) => each.severity === 'error' && each.path === place)?.message,
  );
}

function Problem({ id, message }: { readonly id: string; readonly message: string | undefined }) {
  if (message === undefined) return null;
  return (
    <p className="field-problem" id={id} role="alert">
      {message}
    </p>
  );
}

/** One of several values: kinds, names of the vehicle's parts, counts. Left out where the schema has a standard for it. */
export function ChoiceField({
  path,
  label,
  part,
  about,
  choices,
}: FieldProps & { readonly choices: readonly (string | number | boolean)[] }) {
  const id = useId();
  const write = useWriter();
  const value = useDocument(({ raw }) => valueAt(raw, path));
  const message = useProblem(path);
  const standard = standardText(about);
  const known = value === undefined || choices.some((choice) => choice === value);
  return (
    <div className="row choice" data-wrong={message !== undefined}>
      <label htmlFor={id} title={about.description}>
        {label}
      </label>
      <select
        id={id}
        data-path={pathText(path)}
        aria-label={`${part} ${label}`}
        aria-invalid={message !== undefined}
        aria-describedby={message === undefined ? undefined : `${id}-problem`}
        title={about.description}
        value={value === undefined ? '' : String(value)}
        onChange={({ currentTarget }) => {
          const chosen = choices.find((choice) => String(choice) === currentTarget.value);
          write(path, chosen);
        }}
      >
        {about.optional || value === undefined ? (
          <option value="">{standard === '' ? 'left out' : standard}</option>
        ) : null}
        {known ? null : <option value={String(value)}>{String(value)} (unknown)</option>}
        {choices.map((choice) =>
          about.optional && String(choice) === standard && value !== choice ? null : (
            <option key={String(choice)} value={String(choice)}>
              {String(choice)}
            </option>
          ),
        )}
      </select>
      <Problem id={`${id}-problem`} message={message} />
    </div>
  );
}

/** Yes or no. */
export function TruthField({ path, label, part, about }: FieldProps) {
  const write = useWriter();
  const value = useDocument(({ raw }) => valueAt(raw, path)) ?? about.standard;
  return (
    <label className="row check" title={about.description}>
      <input
        type="checkbox"
        data-path={pathText(path)}
        aria-label={`${part} ${label}`}
        checked={value === true}
        onChange={({ currentTarget }) => write(path, currentTarget.checked)}
      />
      {label}
    </label>
  );
}

/** Any text. Taken with Enter or on leaving; Escape drops it. */
export function TextField({ path, label, part, about }: FieldProps) {
  const write = useWriter();
  const value = useDocument(({ raw }) => valueAt(raw, path));
  const message = useProblem(path);
  const text = typeof value === 'string' ? value : '';
  return (
    <TypedText
      label={label}
      name={`${part} ${label}`}
      text={text}
      title={about.description}
      message={message}
      place={pathText(path)}
      onTake={(typed) => write(path, typed === '' && about.optional ? undefined : typed)}
    />
  );
}

/** The name of an entry: what refers to it follows. */
export function NameField({ path, name }: { readonly path: Path; readonly name: string }) {
  const { rename } = useBuild();
  const message = useProblem([...path, 'name']);
  return (
    <TypedText
      label="name"
      name={`${name} name`}
      text={name}
      title="What refers to it follows."
      message={message}
      place={pathText([...path, 'name'])}
      onTake={(typed) => typed !== '' && rename(path, typed)}
    />
  );
}

interface TypedTextProps {
  readonly label: string;
  readonly name: string;
  readonly text: string;
  readonly title: string | undefined;
  readonly message: string | undefined;
  readonly place: string;
  readonly onTake: (typed: string) => void;
}

function TypedText({ label, name, text, title, message, place, onTake }: TypedTextProps) {
  const id = useId();
  const [draft, setDraft] = useState<string>();
  const take = () => {
    if (draft !== undefined && draft.trim() !== text) onTake(draft.trim());
    setDraft(undefined);
  };
  return (
    <div className="row worded" data-wrong={message !== undefined}>
      <label htmlFor={id} title={title}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        data-path={place}
        autoComplete="off"
        spellCheck={false}
        aria-label={name}
        aria-invalid={message !== undefined}
        aria-describedby={message === undefined ? undefined : `${id}-problem`}
        value={draft ?? text}
        onChange={({ currentTarget }) => setDraft(currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          else if (event.key === 'Escape') setDraft(undefined);
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      <Problem id={`${id}-problem`} message={message} />
    </div>
  );
}
