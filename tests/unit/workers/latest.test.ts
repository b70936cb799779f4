import { describe, expect, it } from 'vitest';
import { LatestWins } from '../../../src/workers/latest.ts';

function queue() {
  const sent: string[] = [];
  const dropped: string[] = [];
  return {
    sent,
    dropped,
    latest: new LatestWins<string>(
      (o) => sent.push(o),
      (o) => dropped.push(o),
    ),
  };
}

describe('a queue in which the latest wins', () => {
  it('sends the first order at once', () => {
    const { latest, sent } = queue();
    latest.ask('a');
    expect(sent).toEqual(['a']);
    expect(latest.busy).toBe(true);
  });

  it('keeps only the newest of what comes in meanwhile, and tells the others', () => {
    const { latest, sent, dropped } = queue();
    for (const order of ['a', 'b', 'c', 'd']) latest.ask(order);
    expect(sent).toEqual(['a']);
    latest.done();
    expect(sent).toEqual(['a', 'd']);
    expect(dropped).toEqual(['b', 'c']);
  });

  it('never has more than one order under way, however many come', () => {
    const { latest, sent } = queue();
    for (let i = 0; i < 1000; i += 1) {
      latest.ask(String(i));
      if (i % 10 === 9) latest.done();
    }
    // 1 at the start, then one after each of 100 answers.
    expect(sent).toHaveLength(101);
    expect(sent.at(-1)).toBe('999');
  });

  it('is free again when nothing waits', () => {
    const { latest, sent } = queue();
    latest.ask('a');
    latest.done();
    expect(latest.busy).toBe(false);
    latest.ask('b');
    expect(sent).toEqual(['a', 'b']);
  });

  it('forgets what waits when it is told to', () => {
    const { latest, sent, dropped } = queue();
    latest.ask('a');
    latest.ask('b');
    latest.forget();
    latest.done();
    expect(sent).toEqual(['a']);
    expect(dropped).toEqual(['b']);
  });
});
