import { useEffect, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { useDocument, useNotice } from '../app/workbench.ts';
import type { Json } from '../documents/json.ts';
import { FigureField } from './fields/FigureField.tsx';
import { type Block, formOf, found, type Group, type Row, sameForm } from './fields/layout.ts';

/** Groups that stand open in the beginning: the first ones with a pivot, which is what there is to tune. */
const OPEN_AT_FIRST = 1;

function RowOfFields({ row, part }: { readonly row: Row; readonly part: string }) {
  const [first, second] = row.fields;
  if (first === undefined) return null;
  if (second === undefined) {
    return (
      <div className="row">
        <FigureField field={first} label={row.label} name={`${part} ${row.label}`} />
      </div>
    );
  }
  return (
    <fieldset className="row pair">
      <legend>{row.label}</legend>
      {row.fields.map((field) => (
        <FigureField
          key={field.part}
          field={field}
          label={field.part}
          name={`${part} ${row.label} ${field.part}`}
          speaksForPair={field === first}
        />
      ))}
    </fieldset>
  );
}

function BlockOfRows({ block, group }: { readonly block: Block; readonly group: Group }) {
  return (
    <section className="block">
      {block.title === '' || block.title === group.title ? null : (
        <h3>
          {block.title} {block.kind === '' ? null : <span className="kind">{block.kind}</span>}
        </h3>
      )}
      {block.rows.map((row) => (
        <RowOfFields key={row.label} row={row} part={block.title === '' ? group.title : block.title} />
      ))}
    </section>
  );
}

function hasPivot({ blocks }: Group): boolean {
  return blocks.some(({ rows }) => rows.some(({ label }) => label === 'pivot'));
}

const holdsPlace = ({ rows }: Block, place: string): boolean =>
  rows.some(({ fields }) => fields.some(({ path }) => pathText(path) === place));

/** The form of the document; made anew only when more than figures changed, so that a drag stays smooth. */
function useForm(raw: Json): readonly Group[] {
  const [kept, keep] = useState(() => ({ raw, form: raw === null ? [] : formOf(raw) }));
  if (sameForm(kept.raw, raw)) return kept.form;
  const form = raw === null ? [] : formOf(raw);
  keep({ raw, form });
  return form;
}

/** Every figure of the document that a builder may change, part by part, generated from the document's schema. */
export function Fields() {
  const raw = useDocument((state) => state.raw);
  const opening = useDocument((state) => state.opening);
  const [search, setSearch] = useState('');
  const [toggled, setToggled] = useState<ReadonlyMap<string, boolean>>(new Map());
  const form = useForm(raw);
  const groups = useMemo(() => found(form, search), [form, search]);
  const atFirst = useMemo(
    () =>
      form
        .filter(hasPivot)
        .slice(0, OPEN_AT_FIRST)
        .map(({ id }) => id),
    [form],
  );

  const list = useRef<HTMLDivElement>(null);
  const wanted = useNotice((state) => state.wanted);
  const done = useRef(wanted);
  useEffect(() => {
    if (wanted === undefined || wanted === done.current) return;
    const place = pathText(wanted.path);
    const group = form.find(({ blocks }) => blocks.some((block) => holdsPlace(block, place)));
    setSearch('');
    if (group !== undefined) setToggled((map) => new Map(map).set(`${opening} ${group.id}`, true));
  }, [wanted, form, opening]);
  useEffect(() => {
    if (wanted === undefined || wanted === done.current) return;
    const place = CSS.escape(pathText(wanted.path));
    const field = list.current?.querySelector<HTMLInputElement>(`[data-path="${place}"]`);
    if (field === null || field === undefined) return;
    done.current = wanted;
    field.scrollIntoView({ block: 'center' });
    field.focus();
    field.select();
  });

  const isOpen = ({ id }: Group): boolean =>
    search !== '' || (toggled.get(`${opening} ${id}`) ?? atFirst.includes(id));
  return (
    <div className="fields" ref={list}>
      <input
        type="search"
        className="search"
        placeholder="Find a figure: pivot, rate, mass …"
        aria-label="Find a figure"
        value={search}
        onChange={(event) => setSearch(event.currentTarget.value)}
      />
      {groups.length === 0 && search !== '' ? <p className="soft pad">No figure has these words.</p> : null}
      {groups.map((group) => (
        <details
          key={`${opening} ${group.id}`}
          className="part"
          open={isOpen(group)}
          onToggle={({ currentTarget }) => {
            const { open } = currentTarget;
            if (search === '' && open !== isOpen(group))
              setToggled((map) => new Map(map).set(`${opening} ${group.id}`, open));
          }}
        >
          <summary>
            <span>{group.title}</span>
            <span className="kind">{group.blocks[0]?.title === group.title ? group.blocks[0].kind : ''}</span>
          </summary>
          {isOpen(group)
            ? group.blocks.map((block) => <BlockOfRows key={block.id} block={block} group={group} />)
            : null}
        </details>
      ))}
    </div>
  );
}
