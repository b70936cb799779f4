import { describe, expect, it } from 'vitest';
import { rubberBlock } from '../../../sim/elements/rubber-block.ts';
import { lawFrom, refusals } from './read.ts';

describe('a rubber block 20 mm high with 3 N/mm at the first touch', () => {
  const elastic = lawFrom(rubberBlock, { height: '20 mm', rate: '3 N/mm', hysteresis: 0 });
  const memory = new Float64Array(1);

  it('pushes with 70 N when pressed to half its height: 3·20/3·(1/0.5² − 0.5)', () => {
    expect(elastic.spring(0.01, memory)).toBeCloseTo(-70, 10);
  });

  it('stores 0.25 J there: 3000·0.02²/3·0.5²·(1/0.5 + ½)', () => {
    expect(elastic.energy(0.01, memory)).toBeCloseTo(0.25, 12);
  });

  it('has 17 N/mm there: (3/3)·(2/0.5³ + 1)', () => {
    expect(elastic.stiffness(0.01, memory)).toBeCloseTo(17_000, 7);
  });

  it('goes on straight beyond 60 % of its height, with 32.25 N/mm: (3/3)·(2/0.4³ + 1)', () => {
    // 3·20/3·(1/0.4² − 0.4) = 117 N at 12 mm, and 2 mm more.
    expect(elastic.spring(0.014, memory)).toBeCloseTo(-(117 + 2 * 32.25), 9);
  });

  it('does nothing while there is a gap', () => {
    const apart = lawFrom(rubberBlock, { height: '20 mm', rate: '3 N/mm', drawnAt: '-4 mm' });
    expect(apart.spring(0.0039, memory)).toBeCloseTo(0, 15);
    expect(apart.spring(0.0041, memory)).toBeLessThan(0);
  });

  it('gives back less than it took: friction of 12 % of 3 N/mm·5 mm, 1.8 N, on either side of 70 N', () => {
    const law = lawFrom(rubberBlock, { height: '20 mm', rate: '3 N/mm', hysteresis: '12 %' });
    const history = new Float64Array(1);
    law.advance?.(0, 0.01, history);
    expect(law.spring(0.01, history)).toBeCloseTo(-71.8, 10);
    law.advance?.(0.01, 0.012, history);
    law.advance?.(0.012, 0.01, history);
    expect(law.spring(0.01, history)).toBeCloseTo(-68.2, 10);
  });

  it('lets go without a push or a pull', () => {
    const law = lawFrom(rubberBlock, { height: '20 mm', rate: '3 N/mm', hysteresis: 0.5 });
    const history = new Float64Array(1);
    law.advance?.(0, 0.01, history);
    for (let x = 0.01; x > 0; x -= 0.0001) {
      law.advance?.(x + 0.0001, x, history);
      expect(law.spring(x, history)).toBeLessThanOrEqual(0);
    }
    expect(law.spring(0, history)).toBeCloseTo(0, 15);
  });
});

describe('the fields of a rubber block', () => {
  it('ask for a rate or a block, and of a block for one shape and one stiffness', () => {
    expect(refusals(rubberBlock, { height: 0.02 })).toEqual([': needs `rate` or `block`, and has neither']);
    expect(refusals(rubberBlock, { height: 0.02, block: {} })).toEqual([
      'block: needs `diameter` or `sides`, and has neither',
      'block: needs `modulus` or `hardness`, and has neither',
    ]);
  });

  it('keep each relation of hardness within its range', () => {
    const block = (shoreA: number) => ({ diameter: 0.01, hardness: { shoreA, relation: 'ruess' } });
    expect(refusals(rubberBlock, { height: 0.02, block: block(60) })).toEqual([]);
    expect(refusals(rubberBlock, { height: 0.02, block: block(61) })).toEqual([
      'block.hardness.shoreA: the relation of Ruess holds from 30 to 60 Shore A',
    ]);
  });
});
