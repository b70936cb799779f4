/*
 * The story of the two shipped designs: what gives first in the one, and that nothing does in the other; and that the
 * README tells it as the command prints it.
 * Seen red: a figure in the README changed; the joints of the first design rated as given.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { appraise, crawl, loadScenario, type Scenario } from '../../sim/index.ts';
import { command } from '../cli/command.ts';

function read(name: string): Scenario {
  const file = new URL(`../../scenarios/${name}.json`, import.meta.url);
  const found = loadScenario(readFileSync(file, 'utf8'));
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
}

describe('two designs of one truck', () => {
  const [shafts, motors] = [read('cairn-6x6-shafts'), read('cairn-6x6-motors')];

  it('stand on the same wheels, members and springs before the same step, asked the same', () => {
    for (const part of ['wheels', 'members', 'elements', 'masses', 'strength', 'drive'] as const)
      expect(shafts.vehicle[part]).toEqual(motors.vehicle[part]);
    expect(shafts.ground).toEqual(motors.ground);
    expect(shafts.criteria).toEqual(motors.criteria);
  });

  it('have a rating for every part: nothing on either ledger is unknown', () => {
    for (const scenario of [shafts, motors]) {
      const { ledger } = appraise(scenario, crawl(scenario, { stations: 120 }));
      expect(ledger?.lines.filter(({ use }) => use === null)).toEqual([]);
    }
  });

  it('differ in that a joint of the first gives on the climb, and nothing of the second', () => {
    const [first, second] = [shafts, motors].map((scenario) =>
      appraise(scenario, crawl(scenario, { stations: 200 })),
    );
    expect(first?.ledger?.says).toMatch(/^Rear joint at the transfer .*: it is the first to give\.$/);
    expect(first?.verdicts.filter((verdict) => !verdict.pass).map(({ kind }) => kind)).toEqual(['part-use']);
    expect(second?.ledger?.lines.some(({ gives }) => gives)).toBe(false);
    expect(second?.pass).toBe(true);
  });
});

describe('the README', () => {
  const section = readFileSync(new URL('../../README.md', import.meta.url), 'utf8').split(
    '## What gives first',
  )[1];
  const blocks = [
    ...(section ?? '').replace(/\n## [\s\S]*/, '').matchAll(/```\n\$ npx axlewright (.+)\n([^`]+)```/g),
  ];

  it('shows what the command prints, line by line', async () => {
    expect(blocks.length).toBe(2);
    for (const [, words = '', shown = ''] of blocks) {
      const { out } = await command(words.split(' '), { cwd: '.' });
      const printed = out.split('\n');
      for (const line of shown.split('\n').filter((text) => text !== '' && text !== '…'))
        expect(printed, words).toContain(line);
    }
  });
});
