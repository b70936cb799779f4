import { useEffect, useRef } from 'react';
import { allActions } from './allActions.ts';
import { Caps } from './Caps.tsx';
import { Icon } from './Icon.tsx';
import { useBench, useNotice, useSettings } from './workbench.ts';

const groups = ['Build', 'Play', 'Look', 'Document'] as const;

/** All keys, on a sheet over the corner of the picture: nothing stops while it is open. */
export function KeyHelp() {
  const bench = useBench();
  const { notices, settings } = bench;
  const open = useNotice((state) => state.help);
  const singleKeys = useSettings((state) => state.singleKeys);
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    if (open) sheet.current?.focus();
  }, [open]);
  if (!open) return null;
  const rows = allActions(bench).filter(({ keys }) => keys.length > 0);
  return (
    <section className="sheet" aria-label="Keys" ref={sheet} tabIndex={-1}>
      <h2>
        Keys
        <button
          type="button"
          className="button icon-only bare"
          aria-label="Close the list of keys"
          onClick={() => notices.setState({ help: false })}
        >
          <Icon name="cross" />
        </button>
      </h2>
      <div className="key-groups">
        {groups
          .filter((group) => rows.some((row) => row.group === group))
          .map((group) => (
            <section key={group}>
              <h3>{group}</h3>
              <dl>
                {rows
                  .filter((row) => row.group === group)
                  .map(({ keys, says }) => (
                    <div key={says}>
                      <dt>
                        <Caps keys={keys[0] ?? ''} />
                      </dt>
                      <dd>{says}</dd>
                    </div>
                  ))}
              </dl>
            </section>
          ))}
      </div>
      <p className="soft">
        In a figure: ↑ and ↓ step it, with Shift by ten, with Alt by a tenth; or drag its label. It takes
        arithmetic and other units: 412-8, 2*45 mm, 1.5 in.
      </p>
      <label className="check">
        <input
          type="checkbox"
          checked={singleKeys}
          onChange={(event) => settings.setState({ singleKeys: event.currentTarget.checked })}
        />
        Single letters work as keys
      </label>
    </section>
  );
}
