import { describe, expect, it } from 'vitest';
import { formatVersion } from '../../shared/schema/scenario.ts';
import { migrate, migrations } from '../../sim/scenario/migrate.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import { type Loose, smallTruck } from './small-truck.ts';

const noFiles = { file: () => undefined };

/** The small truck as the first drafts of the format had it. */
function draftTruck(): Loose {
  const { title, ...rest } = smallTruck();
  return { ...rest, version: 0, name: title };
}

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
}

describe('migration of older versions', () => {
  it('leads from every older version to the next, up to the newest', () => {
    expect(migrations.map(({ from }) => from)).toEqual(Array.from({ length: formatVersion }, (_, i) => i));
    expect(migrations.every(({ says }) => says.length > 10)).toBe(true);
  });

  it('from 0 to 1 calls the name of a scenario its title', () => {
    expect(migrate({ version: 0, name: 'Old truck', notes: 'n' })).toEqual({
      version: 1,
      title: 'Old truck',
      notes: 'n',
    });
  });

  it('never changes what it is given', () => {
    const old = frozen(draftTruck());
    const before = JSON.stringify(old);
    expect(migrate(old)).not.toBe(old);
    expect(JSON.stringify(old)).toBe(before);
  });

  it('lets an old document read as the new one', () => {
    const old = readScenario(JSON.stringify(draftTruck()), noFiles);
    const today = readScenario(smallTruck(), noFiles);
    expect(old).toEqual(today);
    expect(old.ok).toBe(true);
  });

  it('tells of faults of an old document at the paths of the new form', () => {
    const old = draftTruck();
    old.name = 5;
    expect(readScenario(old, noFiles).problems).toEqual([
      { path: 'title', message: 'is a number, text was wanted', severity: 'error' },
    ]);
  });

  it('takes one step after another', () => {
    const steps = [
      { from: -2, says: 'a step of this test', up: (d: object) => ({ ...d, first: true }) },
      { from: -1, says: 'another step of this test', up: (d: object) => ({ ...d, second: true }) },
    ];
    expect(migrate({ version: -2 }, steps)).toEqual({ version: 0, first: true, second: true });
    expect(migrate({ version: -1 }, steps)).toEqual({ version: 0, second: true });
  });

  it('leaves documents of this version, of newer ones and of none alone', () => {
    for (const document of [
      { version: 1, name: 'x' },
      { version: 7, name: 'x' },
      { name: 'x' },
      { version: '0', name: 'x' },
    ]) {
      expect(migrate(document)).toBe(document);
    }
  });
});
