import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { compile, loadScenario } from '../../../sim/index.ts';
import { copyName, typedName } from '../../../src/keeping/names.ts';
import { pictureOf } from '../../../src/keeping/picture.ts';
import { troubleOf, troubleWords } from '../../../src/keeping/trouble.ts';

describe('names of kept documents', () => {
  it('count copies up', () => {
    expect(copyName('corrie-6x6.json')).toBe('corrie-6x6 copy.json');
    expect(copyName('corrie-6x6 copy.json')).toBe('corrie-6x6 copy 2.json');
    expect(copyName('corrie-6x6 copy 9.json')).toBe('corrie-6x6 copy 10.json');
    expect(copyName('copy.json')).toBe('copy copy.json');
  });

  it('take what people type, without what file systems refuse', () => {
    expect(typedName('  softer bars ')).toBe('softer bars.json');
    expect(typedName('a/b:c.json')).toBe('a b c.json');
    expect(typedName(' ./ ')).toBeUndefined();
  });
});

describe('a small picture', () => {
  it('holds all wheels within its box, in few digits', () => {
    const checked = loadScenario(structuredClone(corrie));
    if (!checked.ok) throw new Error('the demo is broken');
    const { box, wheels, covers, lines } = pictureOf(compile(checked.value));
    const [x, z, width, height] = box;
    expect(wheels).toHaveLength(3);
    for (const [wx, wz, r] of wheels) {
      expect(wx - r).toBeGreaterThanOrEqual(x);
      expect(wx + r).toBeLessThanOrEqual(x + width);
      expect(wz - r).toBeGreaterThanOrEqual(z);
      expect(wz + r).toBeLessThanOrEqual(z + height);
    }
    expect(covers.length + lines.length).toBeGreaterThan(3);
    expect(JSON.stringify({ box, wheels, covers, lines }).length).toBeLessThan(4000);
  });
});

describe('a reason why nothing is kept', () => {
  it.each([
    ['QuotaExceededError', 'full'],
    ['VersionError', 'newer'],
    ['SecurityError', 'refused'],
    ['InvalidStateError', 'refused'],
    ['UnknownError', 'failed'],
  ])('%s is told as %s, with what to do', (name, kind) => {
    const trouble = troubleOf(new DOMException('the disk is gone', name));
    expect(trouble.kind).toBe(kind);
    expect(troubleWords(trouble).says).toMatch(/[Ss]ave a file/);
  });
});
