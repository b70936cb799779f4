import { expect, it } from 'vitest';
import { actionsFor, allActions } from '../../../src/app/allActions.ts';
import type { Workbench } from '../../../src/app/workbench.ts';

const bench = { moreKeys: [] } as unknown as Workbench;
const actions = allActions(bench);

it('every action has words of its own, and no key does two things', () => {
  const names = actions.map(({ group, says }) => `${group} ${says}`);
  expect(new Set(names).size).toBe(names.length);
  const keys = actions.flatMap((action) => action.keys);
  expect(new Set(keys).size).toBe(keys.length);
});

it('panels, demos, units and tables can be found by name', () => {
  for (const [typed, found] of [
    ['panel joints', 'panel Joints'],
    ['demo fell', 'open the demo'],
    ['inches', 'show figures in inches and pounds'],
    ['table map', 'table of map'],
    ['undo', undefined],
    ['take back', 'take an edit back'],
  ] as const)
    expect(actionsFor(actions, typed)[0]?.says.slice(0, found?.length)).toBe(found);
});

it('words at the beginning of a word come before others', () => {
  const [first] = actionsFor(actions, 'event');
  expect(first?.says).toBe('next event');
  expect(actionsFor(actions, '')).toHaveLength(actions.length);
});

it('what the builder does with a key comes in place of what the window does with it', () => {
  const moreKeys = [
    { group: 'Build', keys: ['v', 'g'], says: 'show the vehicle drawn', run: () => undefined },
  ] as const;
  const all = allActions({ moreKeys } as unknown as Workbench);
  expect(all.filter(({ keys }) => keys.includes('v')).map(({ says }) => says)).toEqual([
    'show the vehicle drawn',
  ]);
});
