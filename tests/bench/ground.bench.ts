import { bench, describe } from 'vitest';
import { layGround } from '../../sim/ground/lay.ts';
import { firstSegment, heightAt, lastSegment } from '../../sim/ground/query.ts';
import { rough } from '../../sim/ground/rough.ts';

const noFiles = { file: () => undefined };
const piece = (length: number, scale: number) => ({
  kind: 'rough',
  ...rough.fields.parse({ length, class: 'D', seed: 1, scale }),
});

/** Rough ground of a model, 96 m at full size: about 2,600 points. */
const model = layGround([piece(6, 16)], noFiles);
if (!model.ok) throw new Error('the ground of the bench cannot be laid');
const ground = model.value;

/** A station that walks over the whole ground, as a wheel does. */
let station = 0;
const walk = (): number => {
  station = station > 6 ? 0 : station + 0.00037;
  return station;
};

describe('laying ground', () => {
  bench('rough, 6 m at 1:16', () => {
    layGround([piece(6, 16)], noFiles);
  });
  bench('rough, 6 km at full size, 160,000 points', () => {
    layGround([piece(6000, 1)], noFiles);
  });
});

describe('asking the ground', () => {
  bench('height at a station', () => {
    heightAt(ground, walk());
  });
  bench('segments under a wheel of 55 mm radius', () => {
    const at = walk();
    firstSegment(ground, at - 0.055);
    lastSegment(ground, at + 0.055);
  });
});
