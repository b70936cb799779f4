import { useEffect, useMemo, useRef, useState } from 'react';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk, useMapped, useNotice, useShowing, useStudies } from '../app/workbench.ts';
import { useTracks } from '../charts/Bands.tsx';
import { useChanges } from '../panels/comparing.ts';
import { aboutMeasure } from '../panels/measureUnit.ts';
import type { TableOf } from '../store/notice.ts';
import { lineStrips } from './lines.ts';
import { cellWords, csvOf, headsOf, type Sheet, type SheetUnits, tabbedOf, thinned } from './sheet.ts';
import {
  bandsSheet,
  changesSheet,
  limitsSheet,
  linesSheet,
  mapSheet,
  measuresSheet,
  stripsSheet,
} from './sheets.ts';
import { useLines } from './useLines.ts';
import './reading.css';

/** Rows that are laid out; files and the clipboard get all of them. */
const MOST_ROWS = 200;

const titles: Readonly<Record<TableOf, string>> = {
  bands: 'Bands',
  strips: 'Strips',
  lines: 'Lines that were added',
  limits: 'Limits',
  map: 'Map',
  changes: 'Differences',
  measures: 'Measures',
};

/** The tables that there are now; undefined for what has not been found yet. */
function useSheets(): Readonly<Record<TableOf, (() => Sheet) | undefined>> {
  const solved = useDesk((state) => state.solved ?? null);
  const before = useDesk((state) => state.before);
  const tracks = useTracks(solved);
  const lines = useLines();
  const showing = useShowing();
  const { limits, curves } = useStudies();
  const mapped = useMapped();
  const changes = useChanges();
  return useMemo(() => {
    const found = curves.kind === 'done' ? curves.result : limits.kind === 'done' ? limits.result : undefined;
    const strips = solved === null ? [] : lineStrips(solved, null, lines, showing);
    return {
      bands: tracks === null ? undefined : () => bandsSheet(tracks),
      strips: tracks === null ? undefined : () => stripsSheet(tracks),
      lines: tracks === null || strips.length === 0 ? undefined : () => linesSheet(tracks, strips),
      limits: found === undefined ? undefined : () => limitsSheet(found),
      map:
        mapped?.tile === undefined
          ? undefined
          : () => mapSheet(mapped, aboutMeasure(solved?.report, mapped.measure)),
      changes: changes === undefined || changes.length === 0 ? undefined : () => changesSheet(changes),
      measures: solved === null ? undefined : () => measuresSheet(solved.report, before?.report),
    };
  }, [solved, before, tracks, lines, showing, limits, curves, mapped, changes]);
}

/** Hands a text to the browser as a file to be saved. */
function saveText(name: string, text: string): void {
  const link = document.createElement('a');
  // The mark at the beginning tells spreadsheets that it is UTF-8.
  link.href = URL.createObjectURL(new Blob(['\ufeff', text], { type: 'text/csv;charset=utf-8' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

function Rows({ sheet, units }: { readonly sheet: Sheet; readonly units: SheetUnits }) {
  const heads = headsOf(sheet, units);
  const rows = thinned(sheet, MOST_ROWS);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it.
    <section className="sheet-rows" aria-label={`${sheet.title} as a table`} tabIndex={0}>
      <table>
        <thead>
          <tr>
            {heads.map(({ text }, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other name that tells them apart.
              <th key={i} scope="col">
                {text}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place.
            <tr key={r}>
              {row.map((value, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a cell is its place.
                <td key={i} className={typeof value === 'string' ? 'words' : undefined}>
                  {cellWords(value, heads[i] ?? { text: '', factor: 1 })}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Copy, CSV, and the units of both. */
function Tools({ sheet, units, name }: { sheet: Sheet; units: SheetUnits; name: string }) {
  const [done, setDone] = useState('');
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(tabbedOf(sheet, units));
      setDone(`Copied ${sheet.rows.length} rows.`);
    } catch {
      setDone('The browser did not let it be copied: save it as CSV.');
    }
  };
  return (
    <>
      <button type="button" className="button small" onClick={() => void copy()}>
        Copy
      </button>
      <button
        type="button"
        className="button small"
        onClick={() => {
          saveText(`${name}.csv`, csvOf(sheet, units));
          setDone(`Saved ${sheet.rows.length} rows as ${name}.csv.`);
        }}
      >
        Save as CSV
      </button>
      <span className="soft" role="status">
        {done}
      </span>
    </>
  );
}

/** Any chart as a table of figures, to be read, copied and saved. Nothing stops while it is open. */
export function Tables() {
  const { notices } = useBench();
  const wanted = useNotice((state) => state.table);
  const sheets = useSheets();
  const showing = useShowing();
  const vehicle = useDesk(({ drawn }) => drawn?.vehicle) ?? '';
  const [si, setSi] = useState(false);
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    const was = document.activeElement;
    place.current?.focus();
    return () => {
      if (was instanceof HTMLElement) was.focus();
    };
  }, []);
  const sheet = useMemo(() => (wanted === undefined ? undefined : sheets[wanted]?.()), [sheets, wanted]);
  if (wanted === undefined) return null;
  const units = si ? 'si' : showing;
  const name = `${vehicle} ${titles[wanted]}`
    .toLowerCase()
    .replaceAll('×', 'x')
    .replace(/[^\p{L}\p{N}]+/gu, '-');
  const cut = sheet !== undefined && sheet.rows.length > MOST_ROWS;
  return (
    <section className="sheet tables" aria-label="Tables" ref={place} tabIndex={-1}>
      <h2>
        Tables
        <button
          type="button"
          className="button icon-only bare"
          aria-label="Close the tables"
          title="Close (Esc)"
          onClick={() => notices.setState({ table: undefined })}
        >
          <Icon name="cross" />
        </button>
      </h2>
      <div className="sheet-tools">
        <label>
          <span className="unseen">Table</span>
          <select
            value={wanted}
            onChange={({ currentTarget }) => notices.setState({ table: currentTarget.value as TableOf })}
          >
            {(Object.keys(titles) as TableOf[]).map((each) => (
              <option key={each} value={each} disabled={sheets[each] === undefined}>
                {titles[each]}
              </option>
            ))}
          </select>
        </label>
        <label className="check">
          <input
            type="checkbox"
            checked={si}
            onChange={({ currentTarget }) => setSi(currentTarget.checked)}
          />
          in SI, the document's own figures
        </label>
        {sheet === undefined ? null : (
          <Tools key={`${wanted} ${si}`} sheet={sheet} units={units} name={name} />
        )}
      </div>
      {sheet === undefined ? (
        <p className="soft">There is nothing to show yet: it is found where it is drawn.</p>
      ) : (
        <>
          {cut ? (
            <p className="soft">
              {MOST_ROWS} of {sheet.rows.length} rows are shown; copies and files have all of them.
            </p>
          ) : null}
          <Rows sheet={sheet} units={units} />
        </>
      )}
    </section>
  );
}
