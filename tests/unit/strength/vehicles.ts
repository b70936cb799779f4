/** Shipped vehicles with strength figures added, crossed in balance. */
import corrie from '../../../scenarios/corrie-6x6.json';
import drumlin from '../../../scenarios/drumlin-6x6-full.json';
import fell from '../../../scenarios/fell-4x4.json';
import tarn from '../../../scenarios/tarn-8x8.json';
import type { Recording } from '../../../shared/recording.ts';
import type { LedgerLine } from '../../../shared/report.ts';
import { compile, crawl, loadScenario, type Mechanism, strengthLines } from '../../../sim/index.ts';

const shipped = { corrie, drumlin, fell, tarn };

/** Entries as a person writes them. */
export type Entries = readonly Readonly<Record<string, unknown>>[];

export interface Crossed {
  readonly mechanism: Mechanism;
  readonly recording: Recording;
  readonly lines: LedgerLine[];
}

/** What the reader says of a shipped vehicle with these strength entries. */
export function readWith(name: keyof typeof shipped, parts: Entries, more: object = {}) {
  const document = structuredClone(shipped[name]) as { vehicle: object };
  return loadScenario({ ...document, vehicle: { ...document.vehicle, strength: { ...more, parts } } });
}

/** A shipped vehicle with strength entries, compiled. */
export function mechanismWith(name: keyof typeof shipped, parts: Entries): Mechanism {
  const read = readWith(name, parts);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return compile(read.value);
}

/** Crosses a shipped scenario with strength entries in 60 stations. */
export function crossWith(name: keyof typeof shipped, parts: Entries, more: object = {}): Crossed {
  const read = readWith(name, parts, more);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const mechanism = compile(read.value);
  const recording = crawl(read.value, { stations: 60 });
  return { mechanism, recording, lines: strengthLines(mechanism, recording) };
}

/** The line of a part. */
export function lineOf(
  { lines }: Pick<Crossed, 'lines'>,
  sort: string,
  of: string,
  quantity?: string,
): LedgerLine {
  const line = lines.find((l) => l.sort === sort && l.of === of && (quantity ?? l.quantity) === l.quantity);
  if (line === undefined) throw new Error(`no line ${sort} ${of}`);
  return line;
}
