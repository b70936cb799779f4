import { type KeyboardEvent, type RefObject, useMemo, useRef, useState } from 'react';
import { pathText } from '../../shared/path.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench } from '../app/workbench.ts';
import { useBuild } from './build.ts';
import { type Addable, addables } from './kinds.ts';

/** What can be added, by kinds, in a list that opens below its button; found by typing too. */
export function AddMenu({ button }: { readonly button: RefObject<HTMLButtonElement | null> }) {
  const { add, addWhole } = useBuild();
  const { documents } = useBench();
  const [open, setOpen] = useState(false);
  const [search, setSearch] = useState('');
  const menu = useRef<HTMLDivElement>(null);
  const groups = useMemo(() => (open ? addables(documents.getState().raw) : []), [documents, open]);
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const found = groups
    .map((group) => ({
      ...group,
      items: group.items.filter(({ title, says }) => {
        const text = `${group.title} ${title} ${says}`.toLowerCase();
        return words.every((word) => text.includes(word));
      }),
    }))
    .filter(({ items }) => items.length > 0);
  const choose = (item: Addable): void => {
    menu.current?.hidePopover();
    if (item.list === undefined) addWhole(item.kind ?? '');
    else add(item.list, item.kind);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const items = [...(menu.current?.querySelectorAll<HTMLElement>('input, .menu-item') ?? [])];
    const at = items.indexOf(document.activeElement as HTMLElement);
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (by !== 0) items[(at + by + items.length) % items.length]?.focus();
    else if (event.key === 'Enter' && at === 0 && found[0]?.items[0] !== undefined) choose(found[0].items[0]);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        className="button strong"
        popoverTarget="add-menu"
        title="Add a part (A)"
      >
        <Icon name="plus" />
        Add
      </button>
      <div
        id="add-menu"
        className="menu add-menu"
        popover="auto"
        ref={menu}
        role="dialog"
        aria-label="Add a part"
        onKeyDown={onKeyDown}
        onToggle={({ newState }) => {
          setOpen(newState === 'open');
          if (newState === 'open') menu.current?.querySelector('input')?.focus();
          else setSearch('');
        }}
      >
        <input
          type="search"
          className="search"
          placeholder="Find a part: beam, coil, damper …"
          aria-label="Find a part to add"
          value={search}
          onChange={({ currentTarget }) => setSearch(currentTarget.value)}
        />
        <div className="add-groups">
          {found.map(({ title, items }) => (
            <section key={title} aria-label={title}>
              <p className="soft">{title}</p>
              {items.map((item) => (
                <button
                  key={`${pathText(item.list ?? [])} ${item.kind ?? ''}`}
                  type="button"
                  className="menu-item"
                  title={item.says}
                  onClick={() => choose(item)}
                >
                  {item.title}
                </button>
              ))}
            </section>
          ))}
        </div>
        {open && found.length === 0 ? <p className="soft pad">No part has these words.</p> : null}
      </div>
    </>
  );
}
