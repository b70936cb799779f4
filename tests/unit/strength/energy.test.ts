/*
 * Stored energy and what it means.
 * Seen red: energy of one called that of all; the words of a full-size truck for a model; the height in g instead of kg.
 */
import { describe, expect, it } from 'vitest';
import { energyWords, storedEnergies } from '../../../sim/index.ts';
import { materialOf } from '../../../sim/strength/material.ts';
import { repeatedUse, repeatsOf } from '../../../sim/strength/repeats.ts';
import { crossWith } from './vehicles.ts';

const model = { mass: 5 };

describe('the words for a stored energy', () => {
  it('say how high it would throw a tool: 9.80665 J lift 1 kg by 1 m', () => {
    expect(energyWords(9.80665, model)).toContain('1 kg 1 m high');
    expect(energyWords(0.0980665, model)).toContain('1 kg 10 mm high');
  });

  it.each([
    [0.01, /too little/],
    [0.3, /eye protection/],
    [5, /fingers/],
    [50, /bones/],
  ])('%d J: %s', (joules, words) => {
    expect(energyWords(joules, model)).toMatch(words);
  });

  it('leave full-size springs to licensed practice and local codes', () => {
    expect(energyWords(50, { mass: 20_000 })).toMatch(/licensed practice, under local codes/);
    expect(energyWords(50, model)).not.toMatch(/licensed/);
  });
});

it('the energies of a run are those of the laws at their worst', () => {
  const { mechanism, recording } = crossWith('corrie', []);
  const rows = storedEnergies(mechanism, recording);
  expect(rows.map(({ of }) => of)).toEqual(['front springs', 'middle torsion bars', 'rear torsion bars']);
  for (const { each, all } of rows) expect(all).toBeCloseTo(2 * each, 12);
  // ½·T²/c of the bar at its greatest torque: W = π·2.5³/16 mm³, c = 79.3 GPa·π·2.5⁴/32 mm⁴/96 mm
  const [, bars] = rows;
  const twist = Math.max(
    ...Array.from({ length: recording.frames }, (_, f) => {
      const at = recording.columns.findIndex((c) => c.channel === 'elementTravel' && c.index === 2);
      return recording.block[at * recording.frames + f] ?? 0;
    }),
  );
  const rate = (79.3e9 * Math.PI * 0.0025 ** 4) / 32 / 0.096;
  expect((bars?.each ?? 0) / (0.5 * rate * (twist + 0.35 / rate) ** 2)).toBeCloseTo(1, 9);
});

describe('repeated loads', () => {
  it('use the less of the endurance the less they swing', () => {
    const repeats = repeatsOf(materialOf('spring-steel'), 0.003, 1);
    const still = repeatedUse(repeats, 300e6, 300e6) ?? 0;
    const swinging = repeatedUse(repeats, 0, 600e6) ?? 0;
    // Ssu = 0.67·1350 = 904.5 MPa; Se = 241/(1 − 379/904.5) = 414.81 MPa; worked by hand
    expect(still).toBeCloseTo(300 / 904.5, 12);
    expect(swinging).toBeCloseTo(300 / 904.5 + 300 / (241 / (1 - 379 / 904.5)), 12);
  });

  it('are unknown for plastics', () => {
    expect(repeatedUse(repeatsOf(materialOf('pom'), 0.003, 1), 0, 1)).toBeUndefined();
  });
});
