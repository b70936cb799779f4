import type { KeyRow } from '../app/workbench.ts';

/** What the keys of the builder do. */
export interface KeyWishes {
  readonly add: () => void;
  readonly remove: () => void;
  readonly duplicate: () => void;
  readonly mirror: () => void;
  readonly rename: () => void;
  /** Moves the selected entry with all that hangs on it, in pitches: x forward, z up. */
  readonly carry: (x: number, z: number) => void;
  readonly alone: () => void;
  readonly holdRods: () => void;
  readonly point: (by: 1 | -1) => void;
  readonly fit: () => void;
  readonly zoom: (way: 'closer' | 'farther') => void;
  readonly tree: () => void;
  readonly leave: () => void;
}

/** The keys of the builder; they come before those of the window. */
export function keysOf(wishes: KeyWishes): readonly KeyRow[] {
  const row = (keys: readonly string[], says: string, run: () => void): KeyRow => ({
    group: 'Build',
    keys,
    says,
    run,
  });
  return [
    row(['a', 'Insert'], 'add a part', wishes.add),
    row(['Delete', 'Backspace'], 'remove what is selected', wishes.remove),
    row(['Ctrl+d'], 'duplicate it', wishes.duplicate),
    row(['m'], 'add its mirror image', wishes.mirror),
    row(['F2'], 'rename it', wishes.rename),
    row(['Alt+ArrowRight'], 'move it forward by a pitch, with all that hangs on it', () =>
      wishes.carry(1, 0),
    ),
    row(['Alt+ArrowLeft'], 'move it rearward', () => wishes.carry(-1, 0)),
    row(['Alt+ArrowUp'], 'move it up', () => wishes.carry(0, 1)),
    row(['Alt+ArrowDown'], 'move it down', () => wishes.carry(0, -1)),
    row(['.', 'n'], 'next point', () => wishes.point(1)),
    row([',', 'p'], 'point before', () => wishes.point(-1)),
    row(['o'], 'points move alone, or with what hangs on them', wishes.alone),
    row(['r'], 'rods keep their length, or follow their ends', wishes.holdRods),
    row(['e'], 'to the tree of parts', wishes.tree),
    row(['v', 'g'], 'show the vehicle', wishes.fit),
    row(['+', '='], 'closer', () => wishes.zoom('closer')),
    row(['-'], 'farther away', () => wishes.zoom('farther')),
    row(['Escape'], 'select nothing', wishes.leave),
  ];
}
