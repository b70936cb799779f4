import { describe, expect, it } from 'vitest';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import {
  commit,
  createDocumentStore,
  edit,
  editAll,
  HISTORY_BYTES,
  isEdited,
  markSaved,
  openDocument,
  redo,
  stepTo,
  textOf,
  undo,
} from '../../../src/store/document.ts';

const text = '{ "drive": { "speed": "0.2 m/s" } }\n';
const speed = ['drive', 'speed'];

function opened() {
  const store = createDocumentStore();
  openDocument(store, 'a.json', text, JSON.parse(text) as Json);
  return store;
}

const speedOf = (store: ReturnType<typeof opened>) => valueAt(store.getState().raw, speed);

describe('the open document', () => {
  it('gives back its file byte for byte when nothing was edited', () => {
    const store = opened();
    expect(isEdited(store.getState())).toBe(false);
    expect(textOf(store.getState())).toBe(text);
  });

  it('takes edits back and brings them again', () => {
    const store = opened();
    edit(store, speed, '1 m/s');
    edit(store, speed, '2 m/s');
    undo(store);
    expect(speedOf(store)).toBe('1 m/s');
    undo(store);
    expect(isEdited(store.getState())).toBe(false);
    undo(store);
    redo(store);
    redo(store);
    redo(store);
    expect(speedOf(store)).toBe('2 m/s');
  });

  it('takes all edits of one drag back in one step, back to where the drag began', () => {
    const store = opened();
    edit(store, speed, '1 m/s');
    for (let i = 0; i < 200; i += 1) edit(store, speed, `${i} m/s`, 'drag 1');
    edit(store, speed, '9 m/s', 'drag 2');
    undo(store);
    expect(speedOf(store)).toBe('199 m/s');
    undo(store);
    expect(speedOf(store)).toBe('1 m/s');
  });

  it('forgets what could be brought again once something else is edited', () => {
    const store = opened();
    edit(store, speed, '1 m/s');
    undo(store);
    edit(store, speed, '3 m/s');
    redo(store);
    expect(speedOf(store)).toBe('3 m/s');
  });

  it('is no longer edited once it is saved, and edited again when the edit is taken back', () => {
    const store = opened();
    edit(store, speed, '1 m/s');
    const saved = textOf(store.getState());
    expect(saved).toBe('{ "drive": { "speed": "1 m/s" } }\n');
    markSaved(store, 'b.json', saved);
    expect(isEdited(store.getState())).toBe(false);
    undo(store);
    expect(isEdited(store.getState())).toBe(true);
    expect(textOf(store.getState())).toBe(text);
  });

  it('counts an edit to the value it has already as none', () => {
    const store = opened();
    edit(store, speed, '0.2 m/s');
    expect(store.getState().past).toHaveLength(0);
  });

  it('starts afresh with another file, also one of the same name', () => {
    const store = opened();
    const { opening } = store.getState();
    edit(store, speed, '1 m/s');
    openDocument(store, 'a.json', text, JSON.parse(text) as Json);
    expect(store.getState()).toMatchObject({ past: [], future: [], opening: opening + 1 });
  });

  it('takes several figures that belong together back in one step', () => {
    const store = opened();
    editAll(store, [
      { path: speed, value: '1 m/s' },
      { path: ['drive', 'torquePerWheel'], value: '2 N m' },
    ]);
    expect(speedOf(store)).toBe('1 m/s');
    expect(store.getState().past).toHaveLength(1);
    undo(store);
    expect(textOf(store.getState())).toBe(text);
    expect(isEdited(store.getState())).toBe(false);
    editAll(store, [{ path: speed, value: '0.2 m/s' }]);
    expect(store.getState().past).toHaveLength(0);
  });

  it('gives every step its name, and goes to any of them at once', () => {
    const store = opened();
    commit(store, { says: 'drive faster', document: { drive: { speed: '1 m/s' } } });
    edit(store, speed, '2 m/s');
    commit(store, { says: 'drive fastest', document: { drive: { speed: '3 m/s' } } }, 'drag');
    commit(store, { says: 'drive fastest of all', document: { drive: { speed: '4 m/s' } } }, 'drag');
    const names = (steps: readonly { says: string }[]) => steps.map(({ says }) => says);
    expect(names(store.getState().past)).toEqual([
      'drive faster',
      'change drive speed',
      'drive fastest of all',
    ]);
    stepTo(store, 1);
    expect(speedOf(store)).toBe('1 m/s');
    expect(names(store.getState().future)).toEqual(['change drive speed', 'drive fastest of all']);
    stepTo(store, 3);
    expect(speedOf(store)).toBe('4 m/s');
    stepTo(store, 4);
    stepTo(store, -1);
    expect(speedOf(store)).toBe('4 m/s');
    stepTo(store, 0);
    expect(isEdited(store.getState())).toBe(false);
  });

  it('names a figure after the entry that it belongs to', () => {
    const store = createDocumentStore();
    const raw = { members: [{ name: 'rear arm', pivot: { x: '1 mm' } }] };
    openDocument(store, 'a.json', JSON.stringify(raw), raw);
    edit(store, ['members', 0, 'pivot', 'x'], '2 mm');
    expect(store.getState().past[0]?.says).toBe('change rear arm pivot x');
  });

  it('keeps thousands of small steps, and lets go of the oldest only past its bound of memory', () => {
    const store = opened();
    for (let i = 0; i < 5000; i += 1) edit(store, speed, `${i} m/s`);
    expect(store.getState().past).toHaveLength(5000);
    const large = 'x'.repeat(HISTORY_BYTES / 8);
    for (let i = 0; i < 6; i += 1) edit(store, ['notes'], `${large}${i}`);
    const { past } = store.getState();
    expect(past.at(-1)?.says).toBe('change notes');
    expect(past.length).toBeLessThan(5);
    expect(past.length).toBeGreaterThan(1);
    while (store.getState().past.length > 0) undo(store);
    expect(store.getState().future).toHaveLength(past.length);
  });

  it('changes nothing where it is read only, and counts that it was asked to', () => {
    const store = opened();
    edit(store, speed, '1 m/s');
    store.setState({ readOnly: 'it is open in another tab' });
    const before = store.getState().raw;
    expect(commit(store, { says: 'nothing', document: null })).toBe(false);
    undo(store);
    expect(store.getState().raw).toBe(before);
    expect(store.getState().refusals).toBe(2);
  });
});
