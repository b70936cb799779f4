/** The two shipped designs of one truck, as documents that a test may change and as scenarios with their ground. */
import { readFileSync } from 'node:fs';
import type { Ground } from '../../../sim/ground/ground.ts';
import { layGround, loadScenario, type Scenario } from '../../../sim/index.ts';
import type { Loose } from '../small-truck.ts';

/** A fresh copy of a shipped document. */
export const shipped = (name: 'cairn-6x6-shafts' | 'cairn-6x6-motors'): Loose =>
  JSON.parse(readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8'));

/** Reads a document that has to be sound. */
export function ready(document: Loose): { readonly scenario: Scenario; readonly ground: Ground } {
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 2));
  return { scenario: read.value, ground: layGround(read.value) };
}

/** The design with shafts; `change` may spoil it. */
export function shafts(change: (document: Loose) => void = () => {}): ReturnType<typeof ready> {
  const document = shipped('cairn-6x6-shafts');
  change(document);
  return ready(document);
}

/** A part of the drive line of a document, by its name. */
export const partIn = (document: Loose, name: string): Loose =>
  document.vehicle.driveline.parts.find((part: Loose) => part.name === name);
