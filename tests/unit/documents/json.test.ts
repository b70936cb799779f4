import { describe, expect, it } from 'vitest';
import { type Json, valueAt, withoutValue, withValue } from '../../../src/documents/json.ts';

const document: Json = { vehicle: { wheels: [{ radius: '55 mm' }, { radius: 0.055 }] }, run: {} };

describe('a place in a document', () => {
  it('is read, and is undefined where the document does not reach', () => {
    expect(valueAt(document, ['vehicle', 'wheels', 1, 'radius'])).toBe(0.055);
    expect(valueAt(document, ['vehicle', 'wheels', 2, 'radius'])).toBeUndefined();
    expect(valueAt(document, ['vehicle', 'toString'])).toBeUndefined();
  });

  it('is set without touching what lies beside it', () => {
    const after = withValue(document, ['vehicle', 'wheels', 1, 'radius'], 0.06);
    expect(valueAt(after, ['vehicle', 'wheels', 1, 'radius'])).toBe(0.06);
    expect(valueAt(document, ['vehicle', 'wheels', 1, 'radius'])).toBe(0.055);
    expect(valueAt(after, ['vehicle', 'wheels', 0])).toBe(valueAt(document, ['vehicle', 'wheels', 0]));
    expect(valueAt(after, ['run'])).toBe(valueAt(document, ['run']));
  });

  it('is made where its key was left out, and left out again', () => {
    const after = withValue(document, ['run', 'frames'], 120);
    expect(after).toMatchObject({ run: { frames: 120 } });
    expect(withoutValue(after, ['run', 'frames'])).toEqual(document);
  });

  it('is refused where no way leads', () => {
    expect(() => withValue(document, ['vehicle', 'wheels', 0, 'radius', 'x'], 1)).toThrow(
      'no way to x in this document',
    );
    expect(() => withoutValue(document, ['vehicle', 'wheels', 0])).toThrow('cannot leave out');
  });
});
