/* Seen red: the texts of files left out of the head; a cut line taken for an entry. */
import { describe, expect, it } from 'vitest';
import { changesBetween, entryOf, headOf, lineOf, readHead } from '../../../sim/tuning/journal.ts';
import { shipped } from '../studies/shipped.ts';
import { bars, studyOf } from './study.ts';

const head = (changes = {}, scenario = shipped('corrie-6x6'), version = '1.0.0') =>
  headOf(studyOf(bars(changes), scenario), version);

describe('the head of a journal', () => {
  it('is read as it was written, and nothing has changed then', () => {
    const read = readHead(lineOf(head()).trim());
    expect(read).toEqual(head());
    expect(changesBetween(head(), head())).toEqual([]);
  });

  it('does not mind other words for the same study', () => {
    expect(changesBetween(head(), head({ title: 'Other words', notes: 'more' }))).toEqual([]);
  });

  it('says what changed in the study, the scenario and the program', () => {
    expect(changesBetween(head(), head({ seed: 7 }))).toEqual(['study.seed was 1, is 7']);
    const truck = shipped('corrie-6x6');
    const [first, ...rest] = truck.vehicle.masses;
    if (first === undefined) throw new Error('no mass');
    const heavier = { ...truck, vehicle: { ...truck.vehicle, masses: [{ ...first, mass: 3 }, ...rest] } };
    expect(changesBetween(head(), head({}, heavier))).toEqual([
      'scenario.vehicle.masses[0].mass was 2.2, is 3',
    ]);
    expect(changesBetween(head(), head({}, truck, '1.1.0'))).toEqual(['the program was 1.0.0, is 1.1.0']);
  });

  it('knows the texts of the files that grounds are made of', () => {
    const study = studyOf(bars());
    const [ground] = study.grounds;
    if (ground === undefined) throw new Error('no ground');
    const with_ = (text: string) =>
      headOf({ ...study, grounds: [{ ...ground, files: { 'a.csv': text } }] }, '1');
    expect(changesBetween(with_('0,0'), with_('0,1'))).toEqual([
      'grounds[0].files.a.csv was "0,0", is "0,1"',
    ]);
  });
});

describe('a line of a journal', () => {
  const entry = {
    of: 'sample' as const,
    n: 3,
    design: [0.1 + 0.2, 1],
    outcome: { goals: [1 / 3], short: [0], violation: 0, holds: true },
  };

  it('keeps every digit', () => {
    expect(entryOf(lineOf(entry).trim())).toEqual(entry);
  });

  it('that was cut off is none', () => {
    const line = lineOf(entry).trim();
    for (const end of [1, 20, line.length - 1]) expect(entryOf(line.slice(0, end))).toBeUndefined();
  });
});
