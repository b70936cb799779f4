import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Scenario } from '../../../sim/scenario/schema.ts';
import { pivotNamed } from '../../../sim/studies/pivots.ts';
import { pivotKnobs } from '../../../sim/studies/planes.ts';
import { prepare } from '../../../src/documents/admit.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import type { DeskState, DoneRun } from '../../../src/runs/desk.ts';
import * as means from '../../../src/runs/means.ts';
import { type Pin, PivotDrag } from '../../../src/runs/pivotDrag.ts';
import { createDocumentStore, openDocument, redo, textOf, undo } from '../../../src/store/document.ts';
import type { LiveOutcome, LiveSolver } from '../../../src/workers/live.ts';

const text = readFileSync(new URL('../../../scenarios/corrie-6x6.json', import.meta.url), 'utf8');
const raw = JSON.parse(text) as Json;
const NAME = 'middle-arm and rear-arm';

/** The pivot that both arms share. */
function sharedPin(scenario: Scenario): Pin {
  const pivot = pivotNamed(scenario, NAME);
  if (pivot === undefined) throw new Error('the flagship has no such pivot');
  return { name: pivot.name, at: pivot.at, ...pivotKnobs(scenario, pivot) };
}

type Put = Parameters<LiveSolver['put']>;

/** A drag on the flagship whose solver answers when the test says so. */
function byHand(mode: DeskState['mode'] = 'crawl') {
  const documents = createDocumentStore();
  openDocument(documents, 'corrie-6x6.json', text, raw);
  const prepared = prepare(raw);
  if (!prepared.ok) throw new Error('the flagship is no good');
  const first = { took: 1 } as DoneRun;
  const shown: DoneRun[] = [];
  const puts: Put[] = [];
  const state = { mode, drawn: prepared.value, solved: first, before: undefined } as unknown as DeskState;
  const desk = {
    state: () => state,
    attempt: (run: DoneRun) => void shown.push(run),
    restore: (run: DoneRun) => void shown.push(run),
  };
  const live = { put: (...put: Put) => void puts.push(put) };
  const drag = new PivotDrag({ documents, desk, live, means: () => means });
  const answer = (index = puts.length - 1) =>
    puts[index]?.[3]({
      kind: 'solved',
      ticket: index,
      took: index,
      recording: {},
      report: {},
    } as unknown as LiveOutcome);
  const refuse = (why: string, index = puts.length - 1) =>
    puts[index]?.[3]({ kind: 'impossible', ticket: index, why });
  const pivot = (arm: number, axis: 'x' | 'z') =>
    valueAt(documents.getState().raw, ['vehicle', 'members', arm, 'pivot', axis]);
  const pin = sharedPin(prepared.value.scenario);
  return { pin, documents, drag, puts, shown, first, answer, refuse, pivot };
}

describe('a pivot that is dragged', () => {
  it('is answered for at every place, while the document stays as it is', () => {
    const { pin, drag, documents, puts, shown, answer } = byHand();
    drag.move(pin, { x: -0.32, z: 0.08 });
    expect(puts[0]?.[2].map(({ path }) => path.join('.'))).toContain('vehicle.members.1.pivot.x');
    answer();
    expect(shown).toHaveLength(1);
    expect(drag.state()).toMatchObject({ held: NAME, why: undefined });
    expect(documents.getState().raw).toBe(raw);
  });

  it('goes into the document as one edit for all that share it, in the units it was written in', () => {
    const { pin, drag, documents, answer, pivot } = byHand();
    for (const x of [-0.328, -0.325, -0.32004]) {
      drag.move(pin, { x, z: 0.0795 });
      answer();
    }
    drag.keep();
    expect([pivot(1, 'x'), pivot(2, 'x')]).toEqual(['-320 mm', '-320 mm']);
    expect([pivot(1, 'z'), pivot(2, 'z')]).toEqual(['79.5 mm', '79.5 mm']);
    expect(documents.getState().past).toHaveLength(1);
    undo(documents);
    expect(documents.getState().raw).toBe(raw);
    expect(textOf(documents.getState())).toBe(text);
    redo(documents);
    expect(pivot(1, 'x')).toBe('-320 mm');
    expect(drag.state().held).toBeUndefined();
  });

  it('that is given up puts back what was on show and leaves no edit', () => {
    const { pin, drag, documents, shown, first, answer } = byHand();
    drag.move(pin, { x: -0.32, z: 0.08 });
    answer();
    drag.restore();
    expect(shown.at(-1)).toBe(first);
    expect(documents.getState().past).toHaveLength(0);
    // An answer that comes after that is of no interest.
    drag.move(pin, { x: -0.31, z: 0.08 });
    drag.restore();
    const count = shown.length;
    answer();
    expect(shown).toHaveLength(count);
  });

  it('says why it cannot be somewhere, keeps the last answer on show, and is let go at its last good place', () => {
    const { pin, drag, shown, answer, refuse, pivot } = byHand();
    drag.move(pin, { x: -0.32, z: 0.077 });
    answer();
    drag.move(pin, { x: -0.1, z: 0.077 });
    refuse('the loop cannot close');
    expect(drag.state().why).toBe('the loop cannot close');
    expect(drag.state().shown?.x).toBeCloseTo(-0.32, 9);
    expect(shown).toHaveLength(1);
    drag.keep();
    expect(pivot(1, 'x')).toBe('-320 mm');
  });

  it('let go before its last place was answered for, waits for that answer', () => {
    const { pin, drag, documents, answer, pivot } = byHand();
    drag.move(pin, { x: -0.32, z: 0.077 });
    drag.keep();
    expect(documents.getState().past).toHaveLength(0);
    answer();
    expect(pivot(1, 'x')).toBe('-320 mm');
    expect(drag.state().held).toBeUndefined();
  });

  it('never goes back to an older answer', () => {
    const { pin, drag, shown, answer } = byHand();
    drag.move(pin, { x: -0.32, z: 0.077 });
    drag.move(pin, { x: -0.31, z: 0.077 });
    answer(1);
    answer(0);
    expect(shown).toHaveLength(1);
    expect(drag.state().shown?.x).toBeCloseTo(-0.31, 9);
  });

  it('back where it was makes no edit', () => {
    const { pin, drag, documents, answer } = byHand();
    drag.move(pin, { x: -0.32, z: 0.077 });
    answer();
    drag.move(pin, { x: -0.33, z: 0.077 });
    answer();
    drag.keep();
    expect(documents.getState().raw).toBe(raw);
    expect(documents.getState().past).toHaveLength(0);
  });

  it('cannot be taken up while the vehicle is driven', () => {
    const { pin, drag, puts } = byHand('drive');
    drag.move(pin, { x: -0.32, z: 0.077 });
    expect(puts).toHaveLength(0);
    expect(drag.state().held).toBeUndefined();
  });
});
