import { describe, expect, it } from 'vitest';
import { Studies } from '../../../src/runs/studies.ts';
import type { StudyNews, StudyOrder, ToldLimits } from '../../../src/workers/study-protocol.ts';

function byHand() {
  const works: { order: StudyOrder; tell: (news: StudyNews) => void; ended: boolean }[] = [];
  const studies = new Studies((order, tell) => {
    const work = { order, tell, ended: false };
    works.push(work);
    return () => {
      work.ended = true;
    };
  });
  return { studies, works };
}

const result = { found: [] } as unknown as ToldLimits;

describe('a job on demand', () => {
  it('tells how far it is, and keeps its answer with the document that it is about', () => {
    const { studies, works } = byHand();
    studies.limits('doc');
    works[0]?.tell({ kind: 'progress', share: 0.5, next: 'Trench' });
    expect(studies.state().limits).toEqual({ kind: 'running', of: 'doc', share: 0.5, next: 'Trench' });
    works[0]?.tell({ kind: 'limits', result });
    expect(studies.state().limits).toEqual({ kind: 'done', of: 'doc', result });
  });

  it('is called off at will, and by being asked for once more', () => {
    const { studies, works } = byHand();
    studies.matters('doc', 'leastLoadShare');
    studies.matters('doc', 'greatestLoadShare');
    expect(works.map(({ ended }) => ended)).toEqual([true, false]);
    studies.cancel('matters');
    expect(works[1]?.ended).toBe(true);
    expect(studies.state().matters.kind).toBe('none');
  });

  it('stands beside others, and says why it failed', () => {
    const { studies, works } = byHand();
    studies.limits('doc');
    studies.curves('doc');
    works[1]?.tell({ kind: 'failed', message: 'no network' });
    expect(studies.state().curves).toEqual({ kind: 'failed', of: 'doc', message: 'no network' });
    expect(studies.state().limits.kind).toBe('running');
  });
});
