/*
 * What only `axlewright stand` can be told: station, slope, items off, holding torques.
 * Seen red: the slope handed on in degrees; `--without` not handed on; a wrong name let through.
 */
import { tmpdir } from 'node:os';
import { describe, expect, it } from 'vitest';
import type { Report } from '../../shared/report.ts';
import { command } from './command.ts';

const cwd = tmpdir();
const stand = (...args: string[]) => command(['stand', 'corrie-6x6', ...args], { cwd });

async function report(...args: string[]): Promise<Report> {
  return JSON.parse((await stand('--json', ...args)).out) as Report;
}

describe('axlewright stand', () => {
  it('takes items off, and their mass with them', async () => {
    expect((await report()).mass).toBeCloseTo(6, 9);
    expect((await report('--without', 'dump body', '--without', 'battery')).mass).toBeCloseTo(4.55, 9);
  });

  it('stands on a slope given in degrees, pitched with it and heavier behind', async () => {
    const sloped = await report('--slope', '12 deg');
    const pitch = sloped.measures.find((m) => m.name === 'standingPitch')?.value ?? 0;
    // springs lean a little with the shift of load: well under a degree
    expect(Math.abs(pitch - (12 * Math.PI) / 180)).toBeLessThan(Math.PI / 180);
    expect(sloped.wheels[0]?.load).toBeLessThan((await report()).wheels[0]?.load ?? 0);
  });

  it('stands at a station of the ground', async () => {
    // at 1.5 m the whole truck is on the upper level, at the start on the lower one: the same loads
    const loads = async (...args: string[]) => (await report(...args)).wheels.map((w) => w.load);
    const [below, above] = [await loads(), await loads('--station', '1500 mm')];
    above.forEach((load, i) => {
      expect(load).toBeCloseTo(below[i] ?? 0, 5);
    });
  });

  it('fails where the vehicle slides or rolls, and says so', async () => {
    const slid = await stand('--slope', '45 deg');
    expect(slid.code).toBe(1);
    expect(slid.err).toContain('it slides: it needs a grip of 1.00 and has 0.800');
    const rolled = await stand('--slope', '10 deg', '--torque', 'rear=0.3 N m');
    expect(rolled.code).toBe(1);
    expect(rolled.err).toMatch(/it rolls back: \d/);
  });

  it.each([
    [['--without', 'dump bod'], 'did you mean "dump body"?'],
    [['--torque', 'hind=1'], "no axle line called 'hind'"],
    [['--torque', 'rear'], "'rear=0.2 N m'"],
    [['--slope', '20 kg'], 'an angle was wanted'],
  ])('refuses %j with a reason', async (args, reason) => {
    const refused = await stand(...args);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain(reason);
  });
});
