/*
 * Motor line, battery sag and pull at the wheels: worked examples from closed formulas. A motor of 0.12 N·m at standstill
 * and 900 rpm without load, a reduction of 12:1 in two stages of 95 %, wheels of 40 mm.
 * Sources: linear direct-current motor and Ohm (texts on electric drives; greatest power Ts·ω0/4 at half speed, and
 * E²/4R into a load), power balance. Figures were worked out apart from this code.
 * Seen red: the efficiency of one stage left out; the lower root of the battery taken.
 */
import { describe, expect, it } from 'vitest';
import { voltageUnder } from '../../sim/driveline/electric.ts';
import { type Performance, performanceOf } from '../../sim/driveline/performance.ts';
import { compile, loadScenario } from '../../sim/index.ts';

const radius = 0.04;

/** Two axles of rigid wheels on a level, one motor behind two stages. */
function performance(): Performance {
  const wheel = (name: string, x: number) => ({
    name,
    at: { x, z: radius },
    radius,
    massPerWheel: 0.01,
    tyre: { stiffnessPerWheel: 1e6, rolling: 0 },
  });
  const read = loadScenario({
    format: 'axlewright-scenario',
    version: 1,
    title: 'pull at the wheels',
    vehicle: {
      name: 'two axles',
      masses: [{ name: 'all', mass: 3, at: { x: -0.1, z: 0.05 }, inertia: 0.02 }],
      wheels: [wheel('front', 0), wheel('rear', -0.2)],
      drive: { speed: 0.1 },
      driveline: {
        parts: [
          { name: 'motor', kind: 'motor', stallTorque: 0.12, noLoadSpeed: '900 rpm', axis: 'across' },
          { name: 'first', kind: 'reduction', from: 'motor', ratio: 4, efficiency: 0.95 },
          {
            name: 'second',
            kind: 'reduction',
            from: 'first',
            ratio: 3,
            efficiency: 0.95,
            wheels: ['front', 'rear'],
          },
        ],
      },
    },
    ground: [{ kind: 'flat', length: 4 }],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const found = performanceOf(compile(read.value));
  if (!found) throw new Error('there is no drive line');
  return found;
}

describe('pull at the wheels', () => {
  const { line, topSpeed } = performance();
  // closed forms: nothing but rounding; 1e-6 is half a unit of the last digit that was printed
  it('is 32.49 N at standstill', () => expect(line[0]?.thrust).toBeCloseTo(32.49, 6));
  it('goes up to 0.31415927 m/s without load', () => expect(topSpeed).toBeCloseTo(0.31415927, 7));
  it('is 16.245 N at half that speed, where power is greatest', () => {
    const half = line.find(({ speed }) => Math.abs(speed - 0.15707963) < 1e-6);
    expect(half?.thrust).toBeCloseTo(16.245, 6);
    expect(Math.max(...line.map(({ power }) => power))).toBe(half?.power);
    // 2.8274334 W at the motor, 95 % twice
    expect(half?.power).toBeCloseTo(2.8274334 * 0.95 ** 2, 6);
  });
});

describe('a battery of 8.4 V with 0.18 ohm', () => {
  it('has 7.32 V left at 6 A', () => expect(voltageUnder(43.92, 8.4, 0.18)).toBeCloseTo(7.32, 6));
  it('gives 98 W at most, at half its voltage', () => {
    expect(voltageUnder(98, 8.4, 0.18)).toBeCloseTo(4.2, 6);
    expect(voltageUnder(97, 8.4, 0.18)).toBeGreaterThan(4.2);
  });
});
