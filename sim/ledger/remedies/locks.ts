import { listWords } from '../../report/words.ts';
import { withParts } from './line.ts';
import type { Change, Remedy, Trouble } from './remedy.ts';

/** Locks open or closed: all differentials that are not locked locked, or all locked ones open. */
export const locks: Remedy = {
  kind: 'locks',
  title: 'Locks the other way',
  find(trouble) {
    const parts = trouble.scenario.vehicle.driveline?.parts;
    if (parts === undefined) return shared(trouble);
    return (['locked', 'open'] as const).flatMap((mode): Change[] => {
      const turned = parts.flatMap((part, index) =>
        part.kind === 'differential' &&
        part.mode !== mode &&
        (mode === 'open' ? part.mode === 'locked' : true)
          ? [{ name: part.name, index }]
          : [],
      );
      if (turned.length === 0) return [];
      const indices = turned.map(({ index }) => index);
      return [
        {
          says: `${listWords(turned.map(({ name }) => name))} ${mode}.`,
          scenario: withParts(trouble.scenario, (part, i) =>
            indices.includes(i) && part.kind === 'differential' ? { ...part, mode } : part,
          ),
          sets: indices.map((i) => ({ path: `vehicle.driveline.parts[${i}].mode`, value: mode })),
        },
      ];
    });
  },
};

/** Without a drive line: the sharing of the drive as a whole. */
function shared({ scenario }: Trouble): Change[] {
  const { drive } = scenario.vehicle;
  if (drive.sharing !== 'locked' && drive.sharing !== 'open') return [];
  const sharing = drive.sharing === 'locked' ? 'open' : 'locked';
  return [
    {
      says:
        sharing === 'open' ? 'Open differentials throughout.' : 'All driven axle lines locked to each other.',
      scenario: { ...scenario, vehicle: { ...scenario.vehicle, drive: { ...drive, sharing } } },
      sets: [{ path: 'vehicle.drive.sharing', value: sharing }],
    },
  ];
}
