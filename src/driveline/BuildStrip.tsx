import { type RefObject, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { describeField, kindsOf, optionFor } from '../../shared/schema/describe.ts';
import { useBench, useDocument, useSelection } from '../app/workbench.ts';
import { useBuild } from '../build/build.ts';
import { stepFor } from '../build/Field.tsx';
import { itemOf } from '../build/fieldShape.ts';
import type { Sight } from '../canvas/sight.ts';
import { isList, type Json, valueAt } from '../documents/json.ts';
import { addPart, driveLineLayouts, isDrivePart, layOutDriveline } from '../edits/driveline.ts';
import type { Look } from '../solved.ts';
import { DriveStrip } from './DriveStrip.tsx';
import { PARTS } from './tree.ts';

/** Kinds of parts with what the schema says of them. */
function kinds(
  document: Json,
): readonly { readonly kind: string; readonly title: string; readonly says: string }[] {
  const item = itemOf(document, PARTS);
  const names = item === undefined ? undefined : kindsOf(item)?.names;
  return (names ?? []).map((kind) => {
    const option = item === undefined ? undefined : optionFor(item, { kind });
    const about = option === undefined ? undefined : describeField(option, { kind }, []);
    return { kind, title: about?.title ?? kind, says: about?.description ?? '' };
  });
}

/** Adds a part behind the selected one, or lays the drive line out anew. */
function AddPart() {
  const { documents } = useBench();
  const { apply } = useBuild();
  const raw = useDocument((state) => state.raw);
  const entry = useSelection((state) => state.entry);
  const menu = useRef<HTMLDivElement>(null);
  const [open, setOpen] = useState(false);
  const items = useMemo(() => (open ? kinds(documents.getState().raw) : []), [documents, open]);
  const behind = entry !== undefined && isDrivePart(entry) ? Number(entry.at(-1)) : undefined;
  const name = behind === undefined ? undefined : valueAt(raw, [...PARTS, behind, 'name']);
  const step = (event: React.KeyboardEvent): void => {
    const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (by === 0) return;
    const all = [...(menu.current?.querySelectorAll<HTMLElement>('.menu-item') ?? [])];
    all[(all.indexOf(document.activeElement as HTMLElement) + by + all.length) % all.length]?.focus();
    event.preventDefault();
    event.stopPropagation();
  };
  const take = (edit: Parameters<typeof apply>[0]): void => {
    menu.current?.hidePopover();
    apply(edit);
  };
  return (
    <>
      <button
        type="button"
        className="button small"
        popoverTarget="drive-menu"
        title="Add a part of the drive line"
      >
        Add part
      </button>
      <div
        id="drive-menu"
        className="menu drive-menu"
        popover="auto"
        ref={menu}
        role="dialog"
        aria-label="Add to the drive line"
        onKeyDown={step}
        onToggle={({ newState }) => {
          setOpen(newState === 'open');
          if (newState === 'open')
            requestAnimationFrame(() => menu.current?.querySelector<HTMLElement>('.menu-item')?.focus());
        }}
      >
        <section aria-label="A part">
          <p className="soft">{typeof name === 'string' ? `Behind ${name}` : 'Behind the last part'}</p>
          {items.map(({ kind, title, says }) => (
            <button
              key={kind}
              type="button"
              className="menu-item"
              title={says}
              onClick={() => take(addPart(documents.getState().raw, kind, behind))}
            >
              {title}
            </button>
          ))}
        </section>
        <section aria-label="Lay out anew">
          <p className="soft">Lay out anew</p>
          {driveLineLayouts.map(({ kind, title, says }) => (
            <button
              key={kind}
              type="button"
              className="menu-item"
              title={says}
              onClick={() => take(layOutDriveline(documents.getState().raw, kind))}
            >
              {title}
            </button>
          ))}
        </section>
      </div>
    </>
  );
}

interface BuildStripProps {
  readonly look: Look;
  readonly sight: Sight;
  readonly field: RefObject<HTMLElement | null>;
}

/** The drive line under the drawing, to be added to, hung otherwise and moved; nothing for a vehicle without one. */
export function BuildStrip({ look, sight, field }: BuildStripProps) {
  const building = useBuild();
  const { settings, desk } = useBench();
  const any = useDocument(({ raw }) => {
    const parts = valueAt(raw, PARTS);
    return isList(parts) && parts.length > 0;
  });
  const chosen = useSelection(({ entry }) => entry !== undefined && isDrivePart(entry));
  const [picture, setPicture] = useState<HTMLElement | null>(null);
  useLayoutEffect(() => setPicture(field.current), [field]);
  if (!any) return null;
  return (
    <DriveStrip
      look={look}
      sight={sight}
      picture={picture}
      building={building}
      step={() => stepFor(settings.getState().pitch, desk.state().drawn?.mechanism.size)}
      tools={({ on, toggle }) => (
        <span className="group" role="toolbar" aria-label="Drive line tools">
          <AddPart />
          <button
            type="button"
            className="button small"
            aria-pressed={on}
            disabled={!chosen}
            title="Hang the selected part on another one: press that then, or drag it there"
            onClick={toggle}
          >
            Hang on …
          </button>
        </span>
      )}
    />
  );
}
