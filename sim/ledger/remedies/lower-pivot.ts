import { pathText } from '../../../shared/path.ts';
import { figureAt, withSettings } from '../../studies/knob.ts';
import { type Pivot, pivotsOf } from '../../studies/pivots.ts';
import { figureWords, usedWords } from '../words.ts';
import { type Change, type Remedy, stillUsed, type Trouble, tryOut } from './remedy.ts';

/** Drops of a pivot that are tried, over the smallest wheel radius. */
const drops = [0.1, 0.2, 0.3, 0.4, 0.5] as const;
/** A gain in use below this is not worth a row. */
const worthwhile = 0.005;

/** A lower bogie pivot: of some drops the one at which the part that gives first carries least. */
export const lowerPivot: Remedy = {
  kind: 'lower-pivot',
  title: 'A lower bogie pivot',
  find(trouble) {
    return pivotsOf(trouble.scenario)
      .filter((pivot) => pivot.kind === 'pivot' && isBogie(trouble, pivot))
      .flatMap((pivot) => lowered(trouble, pivot));
  },
};

/** A beam, or arms that share a pin. */
function isBogie({ scenario }: Trouble, { members }: Pivot): boolean {
  const kinds = members.map((name) => scenario.vehicle.members.find((m) => m.name === name)?.kind);
  return kinds.includes('bogie-beam') || kinds.filter((kind) => kind === 'arm').length > 1;
}

function lowered(trouble: Trouble, pivot: Pivot): Change[] {
  const { scenario, today, first } = trouble;
  const tried = drops.flatMap((share) => {
    const down = share * today.mechanism.size;
    const settings = pivot.points.flatMap((path) => {
      const at = [...path, 'z'];
      const now = figureAt(scenario, at);
      return now === undefined ? [] : [{ path: at, value: now - down }];
    });
    const changed = withSettings(scenario, settings);
    const use = stillUsed(trouble, tryOut(trouble, changed));
    return Number.isFinite(use) ? [{ down, use, changed, settings }] : [];
  });
  const best = tried.reduce<(typeof tried)[number] | undefined>(
    (least, each) => (least === undefined || each.use < least.use ? each : least),
    undefined,
  );
  if (best === undefined || best.use > (first.use ?? 0) - worthwhile) return [];
  return [
    {
      says: `Pivot of ${pivot.name} ${figureWords(best.down, 'm')} lower: ${first.of} uses ${usedWords(best.use)} then.`,
      scenario: best.changed,
      sets: best.settings.map(({ path, value }) => ({ path: pathText(path), value })),
    },
  ];
}
