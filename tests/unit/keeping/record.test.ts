import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Json } from '../../../src/documents/json.ts';
import {
  type Body,
  type Kept,
  type Plan,
  planOf,
  restored,
  type StepRow,
} from '../../../src/keeping/record.ts';
import {
  commit,
  createDocumentStore,
  markSaved,
  openDocument,
  stepTo,
  textOf,
} from '../../../src/store/document.ts';

/** A database as far as one document needs it, held in memory. */
function shelf() {
  let body: Body | undefined;
  let rows: StepRow[] = [];
  let kept: Kept | undefined;
  return {
    write(plan: Plan) {
      body = plan.body === undefined ? body : structuredClone(plan.body);
      rows = rows
        .filter(({ n }) => n >= plan.kept.first && n < plan.from)
        .concat(structuredClone([...plan.rows]));
      kept = plan.kept;
    },
    kept: () => kept,
    rows: () => rows,
    read(done: number) {
      if (body === undefined || kept === undefined) throw new Error('nothing written');
      return restored({ first: kept.first, done, steps: kept.timeline.length }, body, rows);
    },
  };
}

const text = '{ "a": 1, "list": [1, 2, 3] }\n';

function opened() {
  const store = createDocumentStore();
  openDocument(store, 'a.json', text, JSON.parse(text) as Json);
  return store;
}

const action = fc.oneof(
  fc.record({ kind: fc.constant('set' as const), value: fc.jsonValue({ maxDepth: 2 }), gesture: fc.nat(2) }),
  fc.record({ kind: fc.constant('go' as const), to: fc.nat(12) }),
  fc.record({ kind: fc.constant('save' as const) }),
  fc.record({ kind: fc.constant('write' as const) }),
);

describe('what is written of a document', () => {
  it('gives back the document and its whole history, whatever was done and whenever it was written', () => {
    fc.assert(
      fc.property(fc.array(action, { maxLength: 30 }), (actions) => {
        const store = opened();
        const database = shelf();
        const write = () => database.write(planOf('d', store.getState(), database.kept()));
        for (const each of actions) {
          const { raw, past, future } = store.getState();
          if (each.kind === 'set') {
            const document = { ...(raw as object), a: each.value as Json };
            commit(store, { says: 'set', document }, each.gesture === 0 ? undefined : `g${each.gesture}`);
          } else if (each.kind === 'go') stepTo(store, Math.min(each.to, past.length + future.length));
          else if (each.kind === 'save') markSaved(store, 'a.json', textOf(store.getState()));
          else write();
        }
        write();
        const { raw, past, future, text: now } = store.getState();
        const read = database.read(past.length);
        const texts = (steps: readonly { before: Json; after: Json }[]) =>
          steps.map(({ before, after }) => [JSON.stringify(before), JSON.stringify(after)]);
        expect(JSON.stringify(read.raw)).toBe(JSON.stringify(raw));
        expect(texts(read.past)).toEqual(texts(past));
        expect(texts(read.future)).toEqual(texts(future));
        expect(textOf(read)).toBe(textOf({ ...store.getState() }));
        expect(read.text).toBe(now);
      }),
    );
  });

  it('knows after reading whether the file has what is open: taking everything back leaves nothing edited', () => {
    const store = opened();
    const database = shelf();
    commit(store, { says: 'one', document: { a: 2 } });
    database.write(planOf('d', store.getState(), undefined));
    const { past, written } = database.read(1);
    expect(past[0]?.before).toBe(written);
  });

  it('leaves what is there already alone', () => {
    const store = opened();
    const database = shelf();
    database.write(planOf('d', store.getState(), undefined));
    commit(store, { says: 'one', document: { a: 2 } });
    database.write(planOf('d', store.getState(), database.kept()));
    commit(store, { says: 'two', document: { a: 3 } });
    const plan = planOf('d', store.getState(), database.kept());
    expect(plan.rows.map(({ says }) => says)).toEqual(['two']);
    expect(plan.body).toBeUndefined();
  });

  it('drops the steps that fell out of memory, and still reads', () => {
    const store = opened();
    const database = shelf();
    for (let i = 0; i < 5; i += 1) commit(store, { says: `${i}`, document: { a: i + 10 } });
    database.write(planOf('d', store.getState(), undefined));
    store.setState(({ past }) => ({ past: past.slice(3) }));
    database.write(planOf('d', store.getState(), database.kept()));
    expect(database.rows().map(({ n }) => n)).toEqual([3, 4]);
    const { raw, past } = database.read(2);
    expect(raw).toEqual({ a: 14 });
    expect(past.map(({ says }) => says)).toEqual(['3', '4']);
  });

  it('is refused when a step is missing', () => {
    const store = opened();
    const database = shelf();
    for (let i = 0; i < 3; i += 1) commit(store, { says: `${i}`, document: { a: i + 10 } });
    database.write(planOf('d', store.getState(), undefined));
    database.rows().splice(1, 1);
    expect(() => database.read(3)).toThrow(/do not follow/);
  });
});
