/*
 * Dry friction in a crossing: going up differs from coming down.
 * Seen red: friction let go at every station (`relaxed`); memory not carried from station to station.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column } from '../../../shared/recording.ts';
import { crawl, loadScenario } from '../../../sim/index.ts';

const limit = 0.05;

/** The flagship over one long bump, with dry friction in the pivot of its middle arms. */
function overBump() {
  const document = JSON.parse(
    readFileSync(new URL('../../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
  );
  document.vehicle.elements.push({
    name: 'rub',
    kind: 'pivot-friction',
    on: { member: 'middle-arm' },
    torque: limit,
  });
  document.ground = [
    { kind: 'flat', length: '0.6 m' },
    { kind: 'cosine-bump', height: '15 mm', length: '0.3 m' },
    { kind: 'flat', length: '0.6 m' },
  ];
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return crawl(read.value);
}

describe('a crossing with dry friction in a pivot', () => {
  const recording = overBump();
  const rub = recording.columns.find((c) => c.channel === 'elementEffort' && c.of === 'rub');
  const arm = recording.columns.find((c) => c.channel === 'motion' && c.of === 'middle-arm');
  const effort = column(recording, 'elementEffort', rub?.index);
  const motion = column(recording, 'motion', arm?.index);

  it('crosses', () => {
    expect(recording.end.kind).toBe('arrived');
  });

  it('pushes the arm down by the whole friction while it rises, and up while it falls', () => {
    // the limit itself, reached to rounding once the arm has moved past the elastic breakaway of 0.005 rad
    expect(Math.min(...effort)).toBeCloseTo(-limit, 9);
    expect(Math.max(...effort)).toBeCloseTo(limit, 9);
    for (let f = 1; f < recording.frames; f++) {
      const turned = (motion[f] ?? 0) - (motion[f - 1] ?? 0);
      // a bristle that slides pushes against the motion
      if (Math.abs(effort[f] ?? 0) > 0.999 * limit && Math.abs(turned) > 1e-9)
        expect(Math.sign(effort[f] ?? 0)).toBe(-Math.sign(turned));
    }
  });

  it('loses friction times the way of the arm, there and back, besides what rolling takes', () => {
    const way = motion.reduce((sum, at, f) => sum + Math.abs(at - (motion[f - 1] ?? at)), 0);
    const lost = column(recording, 'lost');
    // rolling loses at least c·W·way (c 0.02, 58.8 N, 1.0 m); friction adds at most limit·way of the arm, and less by
    // what the bristle only bends
    const rolling =
      0.02 *
      6 *
      9.80665 *
      ((column(recording, 'station').at(-1) ?? 0) - (column(recording, 'station')[0] ?? 0));
    const rubbed = (lost.at(-1) ?? 0) - rolling;
    expect(rubbed).toBeGreaterThan(0.5 * limit * way);
    expect(rubbed).toBeLessThan(1.3 * limit * way);
  });
});
