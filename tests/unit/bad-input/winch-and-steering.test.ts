/*
 * Winches and steerings that make no sense are refused, each with its place.
 * Seen red: the check of the drum left out of the registry; angles compared in degrees; a hole as deep as the hub let through.
 */
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../../sim/index.ts';
import { smallTruck } from '../small-truck.ts';

const winch = (changes: object = {}) => ({
  name: 'winch',
  at: { x: '40 mm', z: '70 mm' },
  rope: { length: '2 m', diameter: '1.5 mm' },
  drum: { core: '10 mm', width: '20 mm', flange: '40 mm' },
  ...changes,
});
const steering = (line: object = {}, changes: object = {}) => ({
  name: 'steering',
  lines: [{ wheel: 'front', most: '30 deg', offset: '5 mm', ...line }],
  ...changes,
});

function problemsOf(vehicle: object): readonly string[] {
  const document = smallTruck();
  const read = loadScenario({ ...document, vehicle: { ...document.vehicle, ...vehicle } });
  return read.problems.map(({ path, message }) => `${path}: ${message}`);
}

describe('a winch', () => {
  it('is taken as it should be', () => {
    expect(problemsOf({ winches: [winch()], steering: [steering()] })).toEqual([]);
  });

  it.each([
    [
      'a rope that its drum cannot hold',
      { rope: { length: '50 m', diameter: '1.5 mm' } },
      /winches\[0\]\.rope\.length: is 50 m, and the drum holds [\d.]+ m of it/,
    ],
    ['a drum of nothing', { drum: { core: 0, width: '20 mm' } }, /drum\.core: is 0 m, must be above 0 m/],
    [
      'a drum narrower than its rope',
      { drum: { core: '10 mm', width: '1 mm' } },
      /drum\.width: is 1 mm, less than the rope is thick/,
    ],
    [
      'flanges below the bare drum',
      { drum: { core: '10 mm', width: '20 mm', flange: '9 mm' } },
      /drum\.flange: is 9 mm, no more than the bare drum/,
    ],
    [
      'a rope of less than the turns that stay',
      { rope: { length: '0.1 m', diameter: '1.5 mm' } },
      /rope\.length: .* no more than the 5 turns that stay/,
    ],
    [
      'a place on a member that is missing',
      { on: 'bumper' },
      /winches\[0\]\.on: the vehicle has no member called 'bumper'/,
    ],
    [
      'a power take-off without a drive line',
      { from: 'gearbox' },
      /winches\[0\]\.from: names 'gearbox', and the vehicle has no drive line/,
    ],
    [
      'a hole as deep as the wheel is high',
      { task: { hole: '50 mm' } },
      /task\.hole: is 50 mm: not less than the radius of 'front' \(50 mm\)/,
    ],
    [
      'an anchor with a height and no distance',
      { task: { anchor: { height: '1 m' } } },
      /task\.anchor\.distance: is missing/,
    ],
    ['no line at all', { task: { lines: 0 } }, /task\.lines: /],
  ])('is refused with %s', (_, changes, told) => {
    const problems = problemsOf({ winches: [winch(changes)] });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(told);
  });

  it('is refused beside another of the same name', () => {
    expect(problemsOf({ winches: [winch(), winch()] })[0]).toMatch(/winches\[1\]\.name: is 'winch', as/);
  });
});

describe('a steering', () => {
  it.each([
    ['an angle past 90 degrees', steering({ most: '95 deg' }), /lines\[0\]\.most: is 95°: past 90°/],
    [
      'an axle line that is missing',
      steering({ wheel: 'frnt' }),
      /lines\[0\]\.wheel: no axle line is called 'frnt'/,
    ],
    [
      'a lever too short for the angle',
      steering({}, { linkage: { kind: 'lever', lever: '5 mm', arm: '20 mm' } }),
      /most: is 30°, and the linkage reaches 14\.\d°/,
    ],
    [
      'a line steered twice',
      { ...steering(), lines: [...steering().lines, ...steering().lines] },
      /lines\[1\]\.wheel: is steered twice/,
    ],
    ['an efficiency above 1', steering({}, { efficiency: 1.2 }), /efficiency: is 1\.2, must be at most 1/],
  ])('is refused with %s', (_, entry, told) => {
    const problems = problemsOf({ steering: [entry] });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(told);
  });
});
