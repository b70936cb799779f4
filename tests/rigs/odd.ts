/* Scenarios that are odd but sound by every field: extreme figures, odd members, odd grounds, drawn from a number. */
import type { Loose } from '../unit/small-truck.ts';

/** A fixed row of pseudo-random numbers, 0 to below 1, for each seed (mulberry32, public domain). */
function rowOf(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What the parts of one scenario are drawn with, and where they go. */
interface Draw {
  /** Size of a usual wheel, m; load of an axle line, N; mass of the frame, kg. */
  readonly size: number;
  readonly load: number;
  readonly mass: number;
  readonly between: (least: number, most: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  /** Mostly the usual figure, now and then one of the odd ones. */
  readonly odd: (usual: number, odds: readonly number[]) => number;
  readonly vehicle: { members: Loose[]; elements: Loose[]; wheels: Loose[]; masses: Loose[] };
}

function addWheel(draw: Draw, name: string, on: string, x: number, radius: number): void {
  const { odd, pick, load, mass } = draw;
  draw.vehicle.wheels.push({
    name,
    on,
    at: { x, z: odd(radius, [0.6 * radius, 1.5 * radius]) },
    radius,
    count: pick([1, 2, 4]),
    massPerWheel: odd(0.02 * mass, [1e-6 * mass, 3 * mass]),
    tyre: {
      stiffnessPerWheel: odd((5 * load) / radius, [1e9, load / radius]),
      damping: odd(0.5, [0, 100]),
      grip: odd(0.8, [0, 3, 1e-9]),
      rolling: odd(0.015, [0, 0.5]),
    },
  });
}

function addMass({ vehicle, odd, mass }: Draw, on: string, at: Loose): void {
  vehicle.masses.push({ name: `${on} mass`, on, mass: odd(0.04 * mass, [1e-6 * mass]), at });
}

function addElement({ vehicle }: Draw, on: string, element: Loose): void {
  vehicle.elements.push({ name: `${on} ${element.kind}`, on: { member: on }, ...element });
}

/** What carries axle lines, each hung on the chassis at a place (m): name, height of the hub. */
const supports: Readonly<Record<string, (draw: Draw, on: string, x: number, z: number) => void>> = {
  chassis: (draw, on, x, z) => addWheel(draw, `${on} wheel`, 'chassis', x, z),
  guided(draw, on, x, z) {
    const { odd, size, load } = draw;
    const stop = odd(0.4 * size, [1e-9, 10]);
    draw.vehicle.members.push({
      name: on,
      kind: 'guided-axle',
      at: { x, z },
      lean: odd(0, [1.4, -1.4]),
      bump: stop,
      droop: stop,
    });
    addElement(draw, on, { kind: 'linear-spring', rate: odd((3 * load) / size, [1e-6, 1e7]), preload: load });
    addElement(draw, on, { kind: 'damper', bump: odd((0.02 * load) / size, [0]), rebound: 0 });
    addWheel(draw, `${on} wheel`, on, x, z);
    addMass(draw, on, { x, z });
  },
  arm(draw, on, x, z) {
    const { odd, between, size, load } = draw;
    const lever = odd(between(-2, 2) * size, [1e-9, -1e-3 * size]);
    draw.vehicle.members.push({ name: on, kind: 'arm', pivot: { x: x + lever, z }, end: { x, z } });
    addElement(draw, on, {
      kind: 'torsion-bar',
      rate: odd(5 * load * size, [1e-6, 1e5]),
      preload: odd(load * size, [0, -load * size]),
    });
    addWheel(draw, `${on} wheel`, on, x, z);
    addMass(draw, on, { x, z });
  },
  bogie(draw, on, x, z) {
    const { odd, between, size, load } = draw;
    const [front, rear] = [x + 1.2 * size, x - 1.2 * size];
    const pivot = { x: x + odd(0, [0.5 * size, 1.1999 * size]), z: z + between(-1, 2) * size };
    draw.vehicle.members.push({
      name: on,
      kind: 'bogie-beam',
      pivot,
      front: { x: front, z },
      rear: { x: rear, z },
    });
    addElement(draw, on, { kind: 'pivot-friction', torque: odd(0.02 * load * size, [0, 1e6]) });
    addWheel(draw, `${on} front`, on, front, z);
    addWheel(draw, `${on} rear`, on, rear, z);
    addMass(draw, on, { x, z });
  },
  /** Two rods, now and then crossing, in one line or nearly at the end of their reach. */
  linked(draw, on, x, z) {
    const { odd, size, load } = draw;
    draw.vehicle.members.push({
      name: on,
      kind: 'link-axle',
      at: { x, z },
      lower: { parent: { x: x - 2 * size, z: z - 0.2 * size }, axle: { x, z: z - 0.3 * size } },
      upper: {
        parent: { x: x - odd(1.8, [2, -2, 1e-6]) * size, z: z + odd(0.5, [-0.1999]) * size },
        axle: { x, z: z + 0.5 * size },
      },
    });
    draw.vehicle.elements.push({
      name: `${on} spring`,
      kind: 'linear-spring',
      on: { from: { on, x, z }, to: { on: 'chassis', x, z: z + odd(1.5, [0.01]) * size } },
      rate: (3 * load) / size,
      preload: load,
    });
    addWheel(draw, `${on} wheel`, on, x, z);
    addMass(draw, on, { x, z });
  },
  /** A housing on an arm, held by a rod or free to spin. */
  housed(draw, on, x, z) {
    const { pick, odd, size } = draw;
    supports.arm?.(draw, on, x, z);
    const housing = `${on} housing`;
    draw.vehicle.members.push({ name: housing, kind: 'housing', on, pivot: { x, z } });
    Object.assign(draw.vehicle.wheels.at(-1), { on: housing });
    addMass(draw, housing, { x, z: z + odd(0, [0.5 * size]) });
    const above = z + size;
    if (pick([true, false]))
      draw.vehicle.members.push({
        name: `${on} rod`,
        kind: 'rod',
        from: { on: 'chassis', x: x + 1.5 * size, z: above },
        to: { on: housing, x, z: above },
      });
  },
};

/** Pieces of ground of a height and the vehicle's size, m. */
const pieces: readonly ((size: number, height: number) => Loose)[] = [
  (size, height) => ({ kind: 'step', height, length: 4 * size }),
  (size, height) => ({ kind: 'step', height: -height, length: 4 * size }),
  (size, height) => ({ kind: 'ramp', angle: Math.atan(height / size), length: 4 * size }),
  (size, height) => ({ kind: 'trench', width: size, depth: height }),
  (size, height) => ({ kind: 'v-ditch', width: 2 * size, depth: height }),
  (size, height) => ({ kind: 'washboard', wavelength: 2 * size, height, count: 4 }),
  (size) => ({ kind: 'flat', length: 1e-9 * size }),
  (size, height) => ({
    kind: 'table',
    points: [
      [0, 0],
      [1e-9, height],
      [size, -height],
      [size + 1e-12, height],
      [2 * size, 0],
    ].map(([station, z]) => ({ station, height: z })),
  }),
];

/** An odd scenario as a document; the same for the same seed. Not all of them are sound: reading says which. */
export function oddScenario(seed: number): Loose {
  const next = rowOf(seed * 7919 + 13);
  const between = (least: number, most: number) => least + (most - least) * next();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  const odd = (usual: number, odds: readonly number[]) => (next() < 0.1 ? pick(odds) : usual);
  const lines = pick([1, 2, 2, 2, 3, 3, 4, 5, 8]);
  const size = pick([0.003, 0.05, 0.05, 1]);
  const mass = 8000 * size ** 3;
  const gravity = odd(9.80665, [0.01, 100]);
  const vehicle = { members: [], elements: [], wheels: [], masses: [] } as Draw['vehicle'];
  const draw: Draw = { size, mass, load: (mass * gravity) / lines, between, pick, odd, vehicle };
  let x = 0;
  for (let i = 0; i < lines; i++) {
    const radius = size * odd(between(0.7, 1.3), [0.1, 5]);
    supports[pick(Object.keys(supports))]?.(draw, `support ${i}`, x, radius);
    x -= size * between(2.5, 5);
  }
  const xs = vehicle.wheels.map((w) => w.at.x);
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
  const at = { x: middle, z: size * odd(between(1, 3), [10, -5]) };
  vehicle.masses.push({ name: 'frame', mass, at, inertia: odd(mass * (size ** 2 + x ** 2 / 12), [1e-9]) });
  if (next() < 0.3) vehicle.wheels.reverse();
  const level = { kind: 'flat', length: 6 * size - x };
  const rough = Array.from({ length: pick([0, 1, 2]) }, () =>
    pick(pieces)(size, size * odd(between(0.05, 0.8), [3, 1e-9])),
  );
  const drive = {
    torquePerWheel: odd(draw.load * size, [0, 1e6, 1e-9]),
    speed: odd(size * between(2, 10) * pick([1, -1]), [0, 100, -100]),
    acceleration: odd(0.5, [1e-9, 100]),
    sharing: pick(['locked', { open: vehicle.wheels.map((w) => w.name) }]),
  };
  return {
    format: 'axlewright-scenario',
    version: 1,
    title: `An odd one, ${seed}`,
    gravity,
    vehicle: { name: 'Odd', ...vehicle, drive },
    ground: [level, ...rough, level],
    run: { time: 0.1, frames: pick([10, 240]) },
    criteria: [{ kind: 'wheel-load', least: '20 %' }, { kind: 'reaches' }, { kind: 'no-stop-hit' }],
  };
}
