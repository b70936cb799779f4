import { unitSystems } from '../../shared/units.ts';
import { demos } from '../documents/demos.ts';
import { panels } from '../panels/registry.ts';
import { takeDemo } from './actions.ts';
import { keyTable } from './keys.ts';
import { unitsWords } from './UnitsButton.tsx';
import type { KeyRow, Workbench } from './workbench.ts';

/** Something that can be done, by its key if it has one, and by name in the palette. */
export interface Action extends Omit<KeyRow, 'group'> {
  readonly group: KeyRow['group'] | 'Panel' | 'Figures' | 'Demo';
}

const action = (group: Action['group'], says: string, run: Action['run']): Action => ({
  group,
  keys: [],
  says,
  run,
});

/** Panels beside the picture, wherever the window is. */
const showPanel =
  (panel: string) =>
  ({ settings }: Workbench): void => {
    settings.setState({ panel, building: false });
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`#tab-${panel}`)?.focus());
  };

const figures: readonly Action[] = [
  ...unitSystems.map(({ id }) =>
    action('Figures', `show figures in ${unitsWords[id]}`, ({ settings }) =>
      settings.setState({ units: id }),
    ),
  ),
  action('Figures', "a model's figures, or those of its full size", ({ settings }) =>
    settings.setState(({ fullSize }) => ({ fullSize: !fullSize })),
  ),
  ...(['bands', 'strips', 'lines', 'limits', 'map', 'changes', 'measures'] as const).map((table) =>
    action('Figures', `table of ${table === 'changes' ? 'differences' : table}`, ({ notices }) =>
      notices.setState({ table }),
    ),
  ),
];

/** Everything that can be done now: what the builder adds comes first. The list of keys and the palette both read this. */
export function allActions({ moreKeys }: Workbench): readonly Action[] {
  const taken = new Set(moreKeys.flatMap(({ keys }) => keys));
  return [
    ...moreKeys,
    ...keyTable.filter(({ keys }) => !keys.every((key) => taken.has(key))),
    ...panels.map(({ id, title }) => action('Panel', `panel ${title}`, showPanel(id))),
    ...figures,
    ...demos.map((demo) =>
      action('Demo', `open the demo ${demo.title}`, (bench) => void takeDemo(bench, demo)),
    ),
  ];
}

/** Actions that fit what was typed: every word of it, at the beginning of a word before anywhere else. */
export function actionsFor(actions: readonly Action[], typed: string): readonly Action[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const textOf = ({ group, says }: Action) => `${group} ${says}`.toLowerCase();
  const rank = (each: Action): number => {
    const starts = textOf(each).split(/[^\p{L}\p{N}]+/u);
    return words.filter((word) => !starts.some((start) => start.startsWith(word))).length;
  };
  return actions
    .filter((each) => words.every((word) => textOf(each).includes(word)))
    .map((each) => ({ each, rank: rank(each) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ each }) => each);
}
