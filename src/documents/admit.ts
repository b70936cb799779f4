import type { Checked, Problem } from '../../shared/problem.ts';
import type { GroundSource } from '../../sim/ground/ground.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import { drawnOf } from '../workers/drawn.ts';
import type { Drawn } from '../workers/told.ts';
import type { Json } from './json.ts';

/** A page sees no files beside the document. */
const noFiles: GroundSource = { file: () => undefined };

/**
 * Reads, checks and compiles a document in the window: everything short of driving it.
 * @param document text, or a parsed value
 */
export function prepare(document: unknown): Checked<Drawn> {
  const read = readScenario(document, noFiles);
  if (!read.ok) return read;
  const laid = layGround(read.value.ground, noFiles);
  if (!laid.ok) return laid;
  return { ok: true, value: drawnOf(read.value, laid.value), problems: read.problems };
}

/**
 * The one door through which every document enters, from a file, a drop or the demos: text that is no good scenario
 * comes back with all its problems and changes nothing.
 */
export function admit(text: string): Checked<Json> {
  const prepared = prepare(text);
  if (!prepared.ok) return prepared;
  return { ok: true, value: JSON.parse(withoutMark(text)) as Json, problems: prepared.problems };
}

/** JSON.parse takes no byte order mark; editors on some systems write one. */
function withoutMark(text: string): string {
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

/** A single problem with a whole file. */
export function wholeFileProblem(message: string): readonly Problem[] {
  return [{ path: '', message, severity: 'error' }];
}
