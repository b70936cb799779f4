/* Seen red: the committed schema one field short. */
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { readStudy } from '../../../sim/tuning/read.ts';
import { studySchemaText } from '../../schema/json-schema.ts';
import { bars } from './study.ts';

const root = new URL('../../../', import.meta.url);
const text = readFileSync(new URL('shared/schema/study.schema.json', root), 'utf8');
const folder = new URL('scenarios/studies/', root);
const shipped = readdirSync(folder).filter((name) =>
  readFileSync(new URL(name, folder), 'utf8').includes('axlewright-study'),
);

const ajv = new Ajv2020({ strict: true, strictTypes: false, allErrors: true });
ajv.addVocabulary(['unit', 'dimension']);
const validate = ajv.compile(JSON.parse(text));

describe('the JSON Schema of studies', () => {
  it('is committed as it is made now (if not: npm run schema)', () => {
    expect(text).toBe(studySchemaText());
  });

  it('takes every study that ships, and those of the tests, as our own reader does', () => {
    expect(shipped.length).toBeGreaterThanOrEqual(1);
    for (const name of shipped) {
      const study = readFileSync(new URL(name, folder), 'utf8');
      expect(validate(JSON.parse(study)), JSON.stringify(validate.errors)).toBe(true);
      expect(readStudy(study)).toMatchObject({ ok: true, problems: [] });
    }
    expect(validate(bars())).toBe(true);
  });

  it.each<[string, object]>([
    ['an unknown key', { efort: 1 }],
    ['an unknown way to search', { method: { kind: 'best' } }],
    ['nothing that varies', { vary: [] }],
    ['another format', { format: 'x' }],
    ['a seed that is no whole number', { seed: 1.5 }],
  ])('refuses %s, as our own reader does', (_, changes) => {
    const study = bars(changes as never);
    expect(validate(study)).toBe(false);
    expect(readStudy(study).ok).toBe(false);
  });

  it('explains every field', () => {
    const silent: string[] = [];
    const walk = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      for (const [key, inner] of Object.entries(node)) {
        if (key === 'properties')
          for (const [name, property] of Object.entries(inner as Record<string, { description?: string }>))
            if ((property.description ?? '').length < 3) silent.push(`${path}.${name}`);
        walk(inner, key === 'properties' ? path : `${path}.${key}`);
      }
    };
    walk(JSON.parse(text), '');
    expect(silent).toEqual([]);
  });
});
