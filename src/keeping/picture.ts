import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Picture } from './record.ts';

/** Most points of bodywork that a small picture draws: more cannot be told apart. */
const MOST_POINTS = 200;

/** Digits of a place: a thousandth of the picture. */
const placed = (value: number): number => Number(value.toPrecision(4));

const flat = (points: readonly Vec2[], closed: boolean): readonly number[] => {
  const every = Math.ceil(points.length / MOST_POINTS);
  const few = points.filter((_, i) => i % every === 0);
  const [first] = few;
  return [...few, ...(closed && first !== undefined ? [first] : [])].flatMap(({ x, z }) => [
    placed(x),
    placed(z),
  ]);
};

/** A vehicle as a small picture: bodywork, what carries the wheels, wheels; drawn places, m. */
export function pictureOf(mechanism: Mechanism): Picture {
  const wheels = mechanism.wheels.map(
    ({ hub, radius }) => [placed(hub.x), placed(hub.z), placed(radius)] as const,
  );
  const covers = mechanism.outlines.map(({ points, closed }) => flat(points, closed));
  const lines = [
    ...mechanism.members.flatMap((member) =>
      member.lines.map(({ from, to }) => flat([from.at, to.at], false)),
    ),
    ...mechanism.rods.map(({ a, b }) => flat([a.at, b.at], false)),
  ];
  const xs = [...wheels.flatMap(([x, , r]) => [x - r, x + r])];
  const zs = [...wheels.flatMap(([, z, r]) => [z - r, z + r])];
  for (const line of [...covers, ...lines]) {
    xs.push(...line.filter((_, i) => i % 2 === 0));
    zs.push(...line.filter((_, i) => i % 2 === 1));
  }
  const x = Math.min(...xs);
  const z = Math.min(...zs);
  return { box: [x, z, Math.max(...xs) - x, Math.max(...zs) - z], wheels, covers, lines };
}
