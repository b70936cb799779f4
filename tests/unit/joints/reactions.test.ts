/*
 * Forces in the joints of what moves: against a pendulum worked out by hand, against planck's own joints, and against the
 * crawl where a drive is slow.
 *
 * Seen red: accelerations with the other sign; forces taken a substep late against the poses; tension of a rod as planck
 * has it (push positive); inertia left out (the pendulum's centrifugal force).
 */
import { DistanceJoint, RevoluteJoint, World } from 'planck';
import { afterEach, describe, expect, it, vi } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { type Channel, column, type Recording } from '../../../shared/recording.ts';
import { Reactions } from '../../../sim/dynamics/reactions.ts';
import { crawl, drive, loadScenario, type Scenario } from '../../../sim/index.ts';
import { free, mechanismOf, plantOf } from '../../rigs/linkage.ts';

describe('a pendulum let go level', () => {
  // Fixed-axis rotation, any text on dynamics: ω² = 2·m·g·l·sinφ/I₀, α = m·g·l·cosφ/I₀, pin force = m·a − weight.
  const [mass, reach, inertia, gravity] = [0.7, 0.2, 0.004, 9.81];
  const about = inertia + mass * reach * reach;
  const h = 5e-5;
  const link = { name: 'bar', mass, centre: { x: reach, z: 0 }, inertia, hinge: { x: 0, z: 0 } };
  const mechanism = mechanismOf({ gravity, links: [link], size: reach });

  it.each([10, 45, 90, 120])('pulls at its pin as it should %d degrees further down', (degrees) => {
    const plant = plantOf(mechanism);
    const reactions = new Reactions(plant);
    const until = (-degrees * Math.PI) / 180;
    for (plant.evaluate(h, free); (plant.k.angle[1] as number) > until; plant.evaluate(h, free))
      plant.move(h);
    reactions.note();
    const turned = -(plant.k.angle[1] as number);
    plant.move(h);
    const forces = reactions.after(h);
    const [sin, cos] = [Math.sin(turned), Math.cos(turned)];
    const swept = (2 * mass * gravity * reach * sin) / about;
    const gained = (mass * gravity * reach * cos) / about;
    const x = mass * reach * (-swept * cos - gained * sin);
    const z = mass * reach * (swept * sin - gained * cos) + mass * gravity;
    // symplectic Euler is first order: ω·h is 4e-4 of a radian per step here, and forces are off by less than that share
    expect(Math.abs((forces.pinX[0] as number) - x)).toBeLessThan(1e-3 * mass * gravity);
    expect(Math.abs((forces.pinZ[0] as number) - z)).toBeLessThan(1e-3 * mass * gravity);
    expect(forces.residual).toBeLessThan(1e-9);
  });
});

function read(change: (document: typeof corrie) => void): Scenario {
  const document = structuredClone(corrie);
  change(document);
  const loaded = loadScenario(document);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value;
}

describe("planck's own joints", () => {
  afterEach(() => vi.restoreAllMocks());

  it('carry what the sums over free bodies say, in every frame of a climb', () => {
    // listens to planck: every joint that is made, and the step after each frame
    const made: (RevoluteJoint | DistanceJoint)[] = [];
    const steps: { h: number; forces: number[] }[] = [];
    const create = World.prototype.createJoint;
    vi.spyOn(World.prototype, 'createJoint').mockImplementation(function (this: World, joint) {
      if (joint instanceof RevoluteJoint || joint instanceof DistanceJoint) made.push(joint);
      return create.call(this, joint);
    });
    const step = World.prototype.step;
    vi.spyOn(World.prototype, 'step').mockImplementation(function (this: World, h, velocity, position) {
      step.call(this, h, velocity, position);
      steps.push({ h, forces: made.map((joint) => joint.getReactionForce(1 / h).length()) });
    });
    const scenario = read((document) => {
      document.ground = [
        { kind: 'flat', length: '0.46 m' },
        { kind: 'step', height: '20 mm', length: '1.25 m' },
      ];
      Object.assign(document.run, { time: '1 s', frames: 100 });
    });
    const recording = drive(scenario);
    const perFrame = Math.round(1 / recording.rate / recording.substep);
    const driven = steps.slice(-1 - (recording.frames - 1) * perFrame);
    const hinges = recording.joints.filter((name) => name !== 'front-axle');
    expect(made).toHaveLength(hinges.length + recording.rods.length);
    const weight = 6 * 9.80665;
    for (let frame = 0; frame < recording.frames; frame++) {
      const own = driven[frame * perFrame]?.forces ?? [];
      hinges.forEach((name, n) => {
        const j = recording.joints.indexOf(name);
        const [x, z] = [
          column(recording, 'pinX', j)[frame] as number,
          column(recording, 'pinZ', j)[frame] as number,
        ];
        // gaps of some micrometres between the two halves of a pin, over the length of an arm
        expect(Math.abs(Math.hypot(x, z) - (own[n] as number))).toBeLessThan(2e-4 * weight);
      });
    }
  });
});

describe.each([
  {
    driven: 'rear',
    compared: ['pinX', 'pinZ', 'rodTension', 'elementEffort', 'axial', 'shear', 'bending'] as const,
  },
  { driven: 'front', compared: ['pinX', 'pinZ', 'pinMoment'] as const },
])('a slow drive by its $driven axle alone', ({ driven, compared }) => {
  // how torque is shared is history where several axles are driven, so only one is; no step, whose edges knock
  const scenario = read((document) => {
    document.ground = [
      { kind: 'flat', length: '0.75 m' },
      { kind: 'cosine-bump', height: '15 mm', length: '0.5 m' } as never,
      { kind: 'flat', length: '0.35 m' } as never,
    ];
    Object.assign(document.vehicle.drive, { driven: [driven], speed: '0.03 m/s' });
  });
  const [slow, still] = [drive(scenario), crawl(scenario, { stations: 800 })];
  const weight = 6 * 9.80665;

  /** Value of a column where the vehicle is at a station, between frames. */
  const at = (recording: Recording, channel: Channel, index: number, station: number): number => {
    const stations = column(recording, 'station');
    const next = stations.findIndex((s) => s >= station);
    const [a, b] = [stations[next - 1] as number, stations[next] as number];
    const values = column(recording, channel, index);
    const share = (station - a) / (b - a);
    return (1 - share) * (values[next - 1] as number) + share * (values[next] as number);
  };

  const lists = {
    pinX: 'joints',
    pinZ: 'joints',
    pinMoment: 'joints',
    rodTension: 'rods',
    elementEffort: 'elements',
    axial: 'beams',
    shear: 'beams',
    bending: 'beams',
  } as const;

  it.each([...compared])('has the %s of the crawl to 0.3 percent of the weight', (channel) => {
    // moments count by the wheel radius
    const lever = channel === 'pinMoment' || channel === 'bending' ? 0.055 : 1;
    let [worst, most] = [0, 0];
    // once it has come up to its speed; the tyres' damping and dampers at 0.03 m/s bring some 0.1 %
    for (let station = 0.6; station < 1.5; station += 0.01)
      slow[lists[channel]].forEach((_, index) => {
        const [moving, held] = [at(slow, channel, index, station), at(still, channel, index, station)];
        worst = Math.max(worst, Math.abs(moving - held) / lever / weight);
        most = Math.max(most, Math.abs(held) / lever / weight);
      });
    expect(slow.end.kind).toBe('arrived');
    // there is something to compare
    expect(most).toBeGreaterThan(0.02);
    expect(worst).toBeLessThan(0.003);
  });
});
