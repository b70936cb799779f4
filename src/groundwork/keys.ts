import type { KeyRow } from '../app/workbench.ts';

/** What the keys do while the ground is changed. */
export interface GroundWishes {
  readonly addPoint: () => void;
  readonly remove: () => void;
  readonly point: (by: 1 | -1) => void;
  /** Moves the selected piece to a later (1) or earlier (−1) place. */
  readonly place: (by: 1 | -1) => void;
  readonly draw: () => void;
  readonly whole: () => void;
  readonly leave: () => void;
}

/** Keys of the builder that are of use here too; all its others are about the vehicle. */
const SHARED = new Set(['a', 'e', 'Ctrl+d', '+', '-']);

/** The keys of the ground, with those of the builder that hold here as well. */
export function groundKeys(wishes: GroundWishes, builder: readonly KeyRow[]): readonly KeyRow[] {
  const row = (keys: readonly string[], says: string, run: () => void): KeyRow => ({
    group: 'Build',
    keys,
    says,
    run,
  });
  const own = [
    row(['i', 'Insert'], 'add a point behind this one', wishes.addPoint),
    row(['Delete', 'Backspace'], 'remove the point or piece', wishes.remove),
    row(['.', 'n'], 'next point', () => wishes.point(1)),
    row([',', 'p'], 'point before', () => wishes.point(-1)),
    row(['Alt+ArrowRight', 'Alt+ArrowDown'], 'move the piece to a later place', () => wishes.place(1)),
    row(['Alt+ArrowLeft', 'Alt+ArrowUp'], 'move the piece to an earlier place', () => wishes.place(-1)),
    row(['w'], 'draw by hand', wishes.draw),
    row(['g'], 'show the whole ground', wishes.whole),
    row(['Escape'], 'leave the tool; select nothing', wishes.leave),
  ];
  const taken = new Set(own.flatMap(({ keys }) => keys));
  const kept = builder
    .filter(({ keys }) => keys.some((key) => SHARED.has(key)))
    .map((each) => ({ ...each, keys: each.keys.filter((key) => !taken.has(key)) }));
  const vehicle = builder.filter(({ keys }) => keys.includes('v')).map((each) => ({ ...each, keys: ['v'] }));
  return [...own, ...kept, ...vehicle];
}
