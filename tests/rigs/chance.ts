/* Vehicles and grounds drawn by chance: one to four supports of any kind on rough ground. */
import fc from 'fast-check';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Rig, RigAxle } from './vehicle.ts';

const radius = 0.05;

/** What carries the body at one place. */
interface Support {
  readonly kind: 'rigid-axle' | 'guided-axle' | 'arm' | 'bogie-beam';
  /** Distance from the support before it, m; rate as a share of the usual; offset of a bogie's pivot, m. */
  readonly gap: number;
  readonly rate: number;
  readonly offset: number;
}

const support: fc.Arbitrary<Support> = fc.record({
  kind: fc.constantFrom('rigid-axle', 'guided-axle', 'arm', 'bogie-beam'),
  gap: fc.double({ min: 0.25, max: 0.4, noNaN: true }),
  rate: fc.double({ min: 0.5, max: 2, noNaN: true }),
  offset: fc.double({ min: -0.015, max: 0.015, noNaN: true }),
});

type Parts = {
  -readonly [K in 'axles' | 'members' | 'elements' | 'masses']-?: NonNullable<Rig[K]>[number][];
};

const wheel = (name: string, x: number, on: string): RigAxle => ({
  name,
  at: { x, z: radius },
  on,
  radius,
  mass: 0.1,
  stiffness: 8000,
  load: 10,
  damping: 0.5,
  rolling: 0.01,
});

/** Adds a support at x that carries about 10 N. */
function addSupport(parts: Parts, name: string, { kind, rate, offset }: Support, x: number): void {
  const inertia = 1e-4;
  if (kind === 'rigid-axle') parts.axles.push(wheel(name, x, 'chassis'));
  if (kind === 'guided-axle') {
    parts.members.push({ name, kind, at: { x, z: radius } });
    parts.elements.push({
      name: `${name} spring`,
      kind: 'linear-spring',
      on: { member: name },
      rate: 2000 * rate,
      preload: 8,
    });
    parts.axles.push(wheel(name, x, name));
    parts.masses.push({ on: name, mass: 0.05, at: { x, z: radius }, inertia });
  }
  if (kind === 'arm') {
    const pivot = { x: x + 0.08, z: 0.065 };
    parts.members.push({ name, kind, pivot, end: { x, z: radius } });
    parts.elements.push({
      name: `${name} bar`,
      kind: 'torsion-bar',
      on: { member: name },
      rate: 12 * rate,
      preload: 0.8,
    });
    parts.axles.push(wheel(name, x, name));
    parts.masses.push({ on: name, mass: 0.05, at: { x: x + 0.03, z: 0.055 }, inertia });
  }
  if (kind === 'bogie-beam') {
    const pivot = { x: x + offset, z: 0.06 };
    const [front, rear] = [
      { x: x + 0.06, z: radius },
      { x: x - 0.06, z: radius },
    ];
    parts.members.push({ name, kind, pivot, front, rear });
    parts.axles.push(wheel(`${name} leading`, front.x, name), wheel(`${name} trailing`, rear.x, name));
    parts.masses.push({ on: name, mass: 0.1, at: pivot, inertia });
  }
}

/** Rigs of two to four supports, centre of gravity in the middle half of the wheelbase; 12 N per support. */
export const someRig: fc.Arbitrary<Rig> = fc
  .record({
    supports: fc.array(support, { minLength: 2, maxLength: 4 }),
    share: fc.double({ min: 0.25, max: 0.75, noNaN: true }),
    height: fc.double({ min: 0.06, max: 0.12, noNaN: true }),
  })
  .map(({ supports, share, height }) => {
    const parts: Parts = { axles: [], members: [], elements: [], masses: [] };
    let x = 0;
    supports.forEach((s, i) => {
      addSupport(parts, `support ${i + 1}`, s, -x);
      x += i < supports.length - 1 ? s.gap : 0;
    });
    return {
      ...parts,
      mass: 1.2 * supports.length,
      cg: { x: -x * share, z: height },
      inertia: 0.03 * supports.length,
    };
  });

/** Rough ground of points every 40 mm over 3 m, up to 8 mm high, with the start in its middle. */
export const someGround: fc.Arbitrary<Required<Pick<Rig, 'ground' | 'run'>>> = fc
  .array(fc.double({ min: 0, max: 0.008, noNaN: true }), { minLength: 76, maxLength: 76 })
  .map((heights) => ({
    ground: [{ kind: 'table', points: heights.map((height, i) => ({ station: 0.04 * i, height })) }],
    run: { start: 2 },
  }));

const mirrorPoint = <P extends Vec2>(p: P): P => ({ ...p, x: -p.x });

/** The rig seen from the other side: front is rear. The ground's last point becomes its first. */
export function mirrored(rig: Rig & Required<Pick<Rig, 'ground' | 'run'>>): Rig {
  const table = rig.ground[0] as { kind: 'table'; points: { station: number; height: number }[] };
  const [first, last] = [table.points[0]?.height ?? 0, table.points.at(-1) ?? { station: 0, height: 0 }];
  const points = [...table.points]
    .reverse()
    .map((p) => ({ station: last.station - p.station, height: p.height - last.height + first }));
  return {
    ...rig,
    cg: mirrorPoint(rig.cg),
    axles: rig.axles.map((a) => ({ ...a, at: mirrorPoint(a.at) })),
    masses: (rig.masses ?? []).map((m) => ({ ...m, at: mirrorPoint(m.at) })),
    members: (rig.members ?? []).map(mirrorMember),
    ground: [{ ...table, points }],
    run: { ...rig.run, start: last.station - Number(rig.run.start) },
  };
}

function mirrorMember(member: NonNullable<Rig['members']>[number]): NonNullable<Rig['members']>[number] {
  const at = (p: unknown) => mirrorPoint(p as Vec2);
  if (member.kind === 'arm') return { ...member, pivot: at(member.pivot), end: at(member.end) };
  if (member.kind === 'guided-axle') return { ...member, at: at(member.at) };
  if (member.kind === 'bogie-beam')
    return { ...member, pivot: at(member.pivot), front: at(member.rear), rear: at(member.front) };
  return member;
}
