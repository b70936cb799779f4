/*
 * A drive line in motion against closed forms: the straight line of a direct-current motor (any text on electric drives),
 * torque balance of gears and differentials (texts on drivelines), Coulomb friction of a self-locking worm.
 *
 * Seen red: gears that lose nothing; a battery that does not sag; a worm that is driven back; torque to the faster side.
 */
import { describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import type { Command } from '../../sim/dynamics/plant.ts';
import { type DrivelineInput, driven, drivenRig, under } from '../rigs/drive-line.ts';
import { type Rig, slope } from '../rigs/vehicle.ts';

const radius = 0.05;

/** Two axles 0.3 m apart without springs, 20 N in all, centre of gravity `back` of the way to the rear one. */
const truck = (more: Partial<Rig>, axle: Partial<Rig['axles'][number]> = {}, back = 0.5): Rig => ({
  mass: 20 / 9.81,
  cg: { x: -0.3 * back, z: 0.05 },
  axles: ['front', 'rear'].map((name, i) => ({
    name,
    at: { x: -0.3 * i, z: radius },
    radius,
    mass: 0.05,
    inertia: 1e-4,
    stiffness: 2e4,
    load: 10,
    damping: 1,
    ...axle,
  })),
  ...more,
});

const motor = { name: 'motor', kind: 'motor', stallTorque: 0.02, noLoadSpeed: 400 } as const;
/** One motor, a reduction of 8 that loses a tenth, and a shaft to each axle. */
const onOneShaft = (more: object = {}, mesh: object = {}): DrivelineInput => ({
  parts: [
    { ...motor, ...more },
    {
      name: 'gearbox',
      kind: 'reduction',
      from: 'motor',
      ratio: 8,
      efficiency: 0.9,
      ...mesh,
      wheels: ['front', 'rear'],
    },
  ],
});
const fullThrottle: Command = { kind: 'drive', speed: 1e3, gain: 1e3 };

describe('a motor that spins up', () => {
  it('follows 1 − exp(−t/T) with T = J·ω0/M of rotor and wheels', () => {
    // no grip: the wheels turn on the spot. J at the rotor: 2e-6 + 2·1e-4/64/0.9 (the gears lose a tenth of what turns the wheels)
    const rig = drivenRig(truck({}, { grip: 0 }), onOneShaft({ inertia: 2e-6 }));
    const inertia = 2e-6 + 2e-4 / 64 / 0.9;
    const time = (inertia * 400) / 0.02;
    let worst = 0;
    let step = 0;
    under(rig, fullThrottle, 4 * time, ({ tree }, t, h) => {
      step = h;
      worst = Math.max(worst, Math.abs((tree?.motors[0]?.speed ?? 0) / 400 - (1 - Math.exp(-t / time))));
    });
    // implicit Euler lags by h/2T·(t/T)·exp(−t/T), at most 0.37·h/2T
    expect(step / time).toBeLessThan(0.01);
    expect(worst).toBeLessThan((0.25 * step) / time);
  });
});

describe('a motor that stalls', () => {
  // the rear axle alone drives, the front wheel stands before a wall of two radii
  const wall: Partial<Rig> = {
    ground: [
      { kind: 'flat', length: 10 },
      { kind: 'step', height: 0.1, length: 10 },
    ],
    // half a millimetre before it, and so gently that nothing but torque winds it up
    drive: { speed: 0.2, acceleration: 0.02 },
    run: { start: 9.9495, until: 10.5, time: 6 },
  };
  const rearDriven = (more: object, battery?: DrivelineInput['battery']): DrivelineInput => ({
    ...(battery === undefined ? {} : { battery }),
    parts: [
      { ...motor, ...more },
      { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: 8, efficiency: 1, wheels: ['rear'] },
    ],
  });
  // M·i = 0.02·8 = 0.16 N·m: a thrust of 3.2 N, for which 10 N with a grip of 0.8 are enough.
  // 6 V/10 A = 0.6 Ω: a battery of 0.4 Ω leaves 0.6 of the current, and torque goes with current. No friction in gears or
  // motor: what stands would hold what the motor gave before it sagged.
  it.each([
    { says: 'the line', more: {}, battery: undefined, torque: 0.16 },
    {
      says: 'a current limit of 4 A of 10',
      more: { stallCurrent: 10, voltage: 6, currentLimit: 4 },
      battery: { voltage: 6, resistance: 0 },
      torque: 0.16 * 0.4,
    },
    {
      says: 'a battery that sags to 0.6',
      more: { stallCurrent: 10, voltage: 6 },
      battery: { voltage: 6, resistance: 0.4 },
      torque: 0.16 * 0.6,
    },
  ])('gives the wheels what $says leaves of it', ({ more, battery, torque }) => {
    const run = driven(truck(wall), rearDriven(more, battery as never));
    expect(run.end).toMatchObject({ kind: 'stuck', cause: 'torque at its limit: motor' });
    expect(Math.abs((column(run, 'torque', 1).at(-1) as number) / torque - 1)).toBeLessThan(0.002);
    expect(run.events.find((e) => e.kind === 'stall')).toMatchObject({ part: 'motor' });
    expect(run.events.some((e) => e.kind === 'current-limit')).toBe('currentLimit' in more);
  });

  it('leaves a tenth in gears that lose a tenth, and what stands may hold a tenth more', () => {
    const line = rearDriven({});
    const run = driven(truck(wall), {
      parts: [line.parts[0], { ...line.parts[1], efficiency: 0.9 }],
    } as never);
    const torque = column(run, 'torque', 1).at(-1) as number;
    expect(torque).toBeGreaterThan(0.999 * 0.9 * 0.16);
    expect(torque).toBeLessThan(0.16 / 0.9);
  });

  it('is told of a gear that is asked for more than its rating', () => {
    const line = rearDriven({});
    const run = driven(truck(wall), { parts: [line.parts[0], { ...line.parts[1], rating: 0.1 }] } as never);
    const skip = run.events.find((e) => e.kind === 'skip');
    expect(skip).toMatchObject({ part: 'gearbox', rating: 0.1 });
    expect(run.events.findIndex((e) => e.kind === 'skip')).toBeLessThan(
      run.events.findIndex((e) => e.kind === 'stall'),
    );
  });

  it('slips its clutch where that gives way first', () => {
    const clutch = { name: 'clutch', kind: 'clutch', from: 'gearbox', slipTorque: 0.05, wheels: ['rear'] };
    const gearbox = { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: 8, efficiency: 0.9 };
    const run = driven(truck(wall), { parts: [motor, gearbox, clutch] } as never);
    expect(column(run, 'torque', 1).at(-1)).toBeCloseTo(0.05, 9);
    expect(run.events.find((e) => e.kind === 'slip')).toMatchObject({ part: 'clutch' });
    // the motor turns on below its clutch
    expect(Math.abs(column(run, 'sourceSpeed').at(-1) as number)).toBeGreaterThan(10);
  });
});

describe('top speed on the level', () => {
  it('is where the line of the motor meets the rolling resistance', () => {
    // c·W·r at the wheels, over i·η at the motor: ω = ω0·(1 − 0.06·20·0.05/(8·0.9·0.02)) = 0.58333·ω0
    const rig = truck(
      { drive: { speed: 10, acceleration: 20 }, run: { start: 10, until: 60, time: 12 } },
      { rolling: 0.06 },
    );
    const run = driven(rig, onOneShaft());
    const speed = (column(run, 'sourceSpeed').at(-1) as number) / 400;
    expect(Math.abs(speed / (1 - (0.06 * 20 * 0.05) / (8 * 0.9 * 0.02)) - 1)).toBeLessThan(0.002);
    // the tyres, sunk by δ, roll on a radius between r − δ and r: δ is 1 % of r
    expect(
      Math.abs((column(run, 'speed').at(-1) as number) / (((speed * 400) / 8) * radius) - 1),
    ).toBeLessThan(0.0105);
  });
});

const between = (part: object): DrivelineInput =>
  ({
    parts: [
      motor,
      { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: 16, efficiency: 1 },
      { name: 'centre', kind: 'differential', from: 'gearbox', wheels: ['front', 'rear'], ...part },
    ],
  }) as never;

describe('a differential with one axle on ice', () => {
  const climb = (part: object) => {
    const rig = truck({
      ground: slope(0.2),
      drive: { speed: 0.1, acceleration: 1 },
      run: { start: 50, until: 50.2, time: 3 },
    });
    const icy = { ...rig, axles: rig.axles.map((a) => (a.name === 'front' ? { ...a, grip: 0.05 } : a)) };
    return driven(icy, between(part));
  };
  const torques = (run: ReturnType<typeof climb>) =>
    [0, 1].map((w) => column(run, 'torque', w).at(-1) as number) as [number, number];

  it('gives both axles the same torque when open: that of the ice', () => {
    const run = climb({ mode: 'open' });
    expect(run.end.kind).not.toBe('arrived');
    const [front, rear] = torques(run);
    // wheels that still speed up take J·ω̇ besides: the front one, some 1e-5 N·m
    expect(Math.abs(front - rear)).toBeLessThan(1e-9);
    expect(front).toBeLessThan(0.05 * 10 * radius * 1.2);
  });

  it('climbs when locked, both axles turning alike', () => {
    const run = climb({ mode: 'locked' });
    expect(run.end.kind).toBe('arrived');
    const [front, rear] = torques(run);
    expect(rear).toBeGreaterThan(4 * front);
    expect(
      Math.abs((column(run, 'roll', 0).at(-1) as number) - (column(run, 'roll', 1).at(-1) as number)),
    ).toBeLessThan(1e-6);
  });

  it('gives the slower axle bias times the torque of the faster one, and the preload', () => {
    const run = climb({ mode: 'limited', bias: 2, preload: 0.01 });
    expect(run.events.find((e) => e.kind === 'slip')).toMatchObject({ part: 'centre' });
    const [front, rear] = torques(run);
    expect(rear - (2 * front + 0.01)).toBeCloseTo(0, 9);
  });
});

describe('wind-up on uneven ground', () => {
  const wavy = (part: object) =>
    driven(
      truck({
        ground: [
          { kind: 'flat', length: 10.5 },
          { kind: 'washboard', height: 0.03, wavelength: 0.45, count: 8 },
          { kind: 'flat', length: 1 },
        ] as never,
        drive: { speed: 0.2, acceleration: 1 },
        run: { start: 10.4, until: 13, time: 20 },
      }),
      between(part),
    );
  const apart = (run: ReturnType<typeof wavy>) => {
    const [front, rear] = [column(run, 'torque', 0), column(run, 'torque', 1)];
    return Math.max(...front.map((t, f) => Math.abs(t - (rear[f] as number))));
  };

  it('is there with axles locked together, and not with an open differential', () => {
    expect(apart(wavy({ mode: 'open' }))).toBeLessThan(1e-9);
    expect(apart(wavy({ mode: 'locked' }))).toBeGreaterThan(0.1);
  });
});

describe('a vehicle left alone on a slope', () => {
  const left = (mesh: object) => {
    const rig = drivenRig(truck({ ground: slope(0.2), run: { start: 50 } }), onOneShaft({}, mesh));
    const idle: Command = { kind: 'drive', speed: 0, gain: 0 };
    const plant = under(rig, idle, 1, () => undefined);
    return plant.wheels[0]?.roll ?? 0;
  };

  it('rolls back against its motor with gears that can be driven back', () => {
    expect(left({ mesh: 'spur' })).toBeLessThan(-1);
  });

  it('stays behind a worm that locks itself', () => {
    // settling on to its tyres turns the wheels a little
    expect(Math.abs(left({ mesh: 'worm', efficiency: 0.4, backEfficiency: 0 }))).toBeLessThan(0.02);
  });
});
