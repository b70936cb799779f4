import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { column, poseAt } from '../../../shared/recording.ts';
import { prepare } from '../../../src/documents/admit.ts';
import { previewOf } from '../../../src/runs/preview.ts';

const FOLDER = fileURLToPath(new URL('../../../scenarios', import.meta.url));
const names = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));

describe('the preview of a run', () => {
  it.each(names)('of %s has the vehicle as drawn, at the start of its run, and no loads', (name) => {
    const prepared = prepare(readFileSync(join(FOLDER, name), 'utf8'));
    if (!prepared.ok) throw new Error(JSON.stringify(prepared.problems));
    const { mechanism, start } = prepared.value;
    const { recording, report } = previewOf(prepared.value);
    expect(recording.frames).toBe(1);
    expect(recording.block).toHaveLength(recording.columns.length);
    const chassis = poseAt(recording, 0, 0);
    expect(chassis.x + mechanism.reference.x).toBeCloseTo(start, 12);
    expect([chassis.z, chassis.angle]).toEqual([0, 0]);
    mechanism.wheels.forEach((wheel, i) => {
      expect(column(recording, 'wheelStation', i)[0]).toBeCloseTo(chassis.x + wheel.hub.x, 12);
      expect(column(recording, 'load', i)[0]).toBeNaN();
    });
    expect(report.verdicts).toEqual([]);
    expect(prepared.value.asks.length).toBeGreaterThan(0);
    expect(prepared.value.asks.every((asks) => /^[A-Z].* /.test(asks))).toBe(true);
  });
});
