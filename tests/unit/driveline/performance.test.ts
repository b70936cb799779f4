/*
 * Performance of the small truck: full throttle against hand-worked motor lines, running time, heat at standstill,
 * efficiency. Seen red: sag left out; the clutch not asked; C and Θ of the winding exchanged; capacity used whole.
 */
import { describe, expect, it } from 'vitest';
import { type Performance, performanceOf } from '../../../sim/driveline/performance.ts';
import type { Loose } from '../small-truck.ts';
import { oneMotor, truckWith } from './document.ts';

function performance(spoil: (d: Loose) => void = () => {}): Performance {
  const driveline = oneMotor();
  spoil(driveline);
  const found = performanceOf(truckWith(driveline));
  if (!found) throw new Error('there is no drive line');
  return found;
}

// the motor of these tests: 7.4 V, 20 A, R = 0.37 Ω, c = 0.12/19.5 N·m/A, no-load 9000 rpm at 0.5 A
const resistance = 7.4 / 20;
const perAmpere = 0.12 / 19.5;
/** Thrust of 1 N·m at the motor: gearbox 6:1 at 90 %, bevel 3:1 at 93 %, wheels of 50 mm. */
const gain = (18 * 0.9 * 0.93) / 0.05;

describe('full throttle', () => {
  it('at standstill sags under the inner resistance of the battery', () => {
    const amperes = 7.4 / (resistance + 0.06);
    const [first] = performance().line;
    expect(first?.current).toBeCloseTo(amperes, 9);
    expect(first?.voltage).toBeCloseTo(7.4 - 0.06 * amperes, 9);
    expect(first?.thrust).toBeCloseTo(perAmpere * (amperes - 0.5) * gain, 9);
  });

  it("without a battery has the voltage of the motor's own figures, and no current of a battery", () => {
    const [first] = performance((d) => {
      d.parts[0].voltage = '7.4 V';
      delete d.battery;
    }).line;
    expect(first?.thrust).toBeCloseTo(0.12 * gain, 9);
    expect(first?.current).toBeNull();
  });

  it('keeps to the current limit of the battery: the controller turns volts into amperes', () => {
    const [first] = performance((d) => {
      d.battery.currentLimit = '5 A';
    }).line;
    const volts = 7.4 - 5 * 0.06;
    // all of 5 A · 7.1 V heats the winding at standstill: I² R
    const amperes = Math.sqrt((5 * volts) / resistance);
    expect(first?.current).toBeCloseTo(5, 6);
    expect(first?.thrust).toBeCloseTo(perAmpere * (amperes - 0.5) * gain, 5);
  });

  it('keeps to the limit that two motors share at their controller', () => {
    const both = performance((d) => {
      d.controllers = [{ name: 'esc', currentLimit: '8 A' }];
      d.parts[0].controller = 'esc';
      d.parts.push({ ...d.parts[0], name: 'second' });
      d.parts[1].from = ['motor', 'second'];
    });
    expect(both.line[0]?.thrust).toBeCloseTo(2 * perAmpere * (4 - 0.5) * gain, 9);
  });

  it('ends where a clutch slips', () => {
    const slipping = performance((d) => {
      d.parts.push({ name: 'slipper', kind: 'clutch', from: 'motor', slipTorque: '50 N mm' });
      d.parts[1].from = 'slipper';
    });
    expect(slipping.line[0]?.thrust).toBeCloseTo(0.05 * gain, 9);
  });

  it('of an engine follows its curve', () => {
    const { line, steepest, sources } = performance((d) => {
      d.parts[0] = {
        name: 'motor',
        kind: 'engine',
        curve: [
          { speed: '1000 rpm', torque: '60 N mm' },
          { speed: '3000 rpm', torque: '100 N mm' },
          { speed: '6000 rpm', torque: '40 N mm' },
        ],
      };
    });
    const most = line.reduce((a, b) => (b.thrust > a.thrust ? b : a));
    // 60 points over 6000 rpm: 3000 rpm is one of them
    expect(most.thrust).toBeCloseTo(0.1 * gain, 9);
    expect(most.speed).toBeCloseTo(((3000 * 2 * Math.PI) / 60 / 18) * 0.05, 9);
    expect(steepest?.speed).toBe(most.speed);
    expect(sources[0]?.stall).toBeNull();
  });
});

describe('grades', () => {
  const found = performance((d) => {
    d.parts[0].stallTorque = '20 N mm';
  });
  it('are where the pull carries weight and rolling resistance', () => {
    const pull = found.line[0]?.thrust ?? 0;
    const { angle } = found.steepest ?? { angle: 0 };
    expect(angle).toBeGreaterThan(0.1);
    expect(angle).toBeLessThan(1.5);
    expect(found.mass * 9.80665 * Math.sin(angle) + found.drag * Math.cos(angle)).toBeCloseTo(pull, 9);
  });
  it('have a speed each, which falls to nothing', () => {
    const speeds = found.grades.map(({ speed }) => speed ?? -1);
    expect(speeds[0]).toBe(found.topSpeed);
    expect([...speeds].sort((a, b) => b - a)).toEqual(speeds);
  });
});

describe('a battery', () => {
  it('lasts as long as 80 % of its charge', () => {
    const { level } = performance((d) => {
      d.battery.capacity = '2000 mA h';
    });
    expect(level?.time).toBeCloseTo((0.8 * 7200) / (level?.current ?? 0), 6);
    expect(level?.distance).toBeCloseTo((level?.time ?? 0) * 0.2, 9);
    // Power at the wheels is drag times speed, and the whole is more than that
    expect((level?.power ?? 0) * (level?.efficiency ?? 0)).toBeCloseTo(performance().drag * 0.2, 9);
  });

  it('of unknown charge has no running time, and motors of unknown current no power', () => {
    expect(performance().level).toMatchObject({ time: null, distance: null });
    const bare = performance((d) => {
      delete d.parts[0].stallCurrent;
      delete d.parts[0].noLoadCurrent;
    });
    expect(bare.level).toMatchObject({ power: null, current: null });
    expect(bare.sources[0]?.stall).toMatchObject({ lasts: 'unknown', current: null });
    expect(bare.sources[0]?.map).toBeNull();
  });
});

describe('a motor held at full throttle', () => {
  const heated = (thermal: Loose) =>
    performance((d) => {
      d.parts[0].thermal = thermal;
    }).sources[0]?.stall;
  const heat = resistance * (7.4 / (resistance + 0.06)) ** 2;

  it('lasts C·ΔT/P where nothing says how it cools', () => {
    const stall = heated({ heatCapacity: '20 J/K', rise: '80 K' });
    expect(stall?.heat).toBeCloseTo(heat, 9);
    expect(stall?.time).toBeCloseTo((20 * 80) / heat, 9);
  });
  it('warms towards P·Θ otherwise', () => {
    const stall = heated({ heatCapacity: '20 J/K', resistance: '5 K/W', rise: '80 K' });
    const time = stall?.time ?? 0;
    expect(heat * 5 * (1 - Math.exp(-time / (5 * 20)))).toBeCloseTo(80, 9);
  });
  it('lasts for ever where it never gets that warm', () => {
    expect(heated({ heatCapacity: '20 J/K', resistance: '0.5 K/W', rise: '80 K' })).toMatchObject({
      time: null,
      lasts: 'for ever',
    });
  });
});

describe('efficiency of a motor', () => {
  const { map } = performance().sources[0] ?? {};
  it('is what a linear motor has at its best: (1 − √(I0/Is))², to the steps of the grid', () => {
    // torque and speed constants agree here only if T_s·ω0 = U·(Is − I0)²/Is; scale for what they leave
    const excess = (0.12 * ((9000 * 2 * Math.PI) / 60)) / ((7.4 * 19.5 ** 2) / 20);
    const most = excess * (1 - Math.sqrt(0.5 / 20)) ** 2;
    expect(map?.best.efficiency).toBeLessThanOrEqual(most * 1.0001);
    // 24 steps: half of one off in torque costs less than 2 %
    expect(map?.best.efficiency).toBeGreaterThan(most * 0.98);
  });
  it('has no value beyond what the voltage reaches', () => {
    expect(map?.values.at(-1)?.at(-1)).toBeNull();
    expect(map?.values[0]?.[0]).toBeGreaterThan(0);
  });
});
