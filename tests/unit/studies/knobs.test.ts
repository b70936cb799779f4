/* Seen red: ends left where they are when their pin moves; a rod's far end carried along; lengths that move ends twice. */
import { describe, expect, it } from 'vitest';
import { distance } from '../../../shared/geometry/vec.ts';
import { pathText } from '../../../shared/path.ts';
import { compile } from '../../../sim/index.ts';
import { knobAt, namedPath, settingsFor, withSettings } from '../../../sim/studies/knob.ts';
import { numbersOf, sharedPins, turnOf } from '../../../sim/studies/numbers.ts';
import { pivotNamed, pivotsOf } from '../../../sim/studies/pivots.ts';
import { pivotKnobs, pivotPlane, planesOf, together } from '../../../sim/studies/planes.ts';
import { shipped } from './shipped.ts';

const corrie = shipped('corrie-6x6');
const scree = shipped('scree-6');

describe('the pivots of a vehicle', () => {
  it('are one for two arms that turn about one point, and one for the end of an arm and what hangs there', () => {
    expect(pivotsOf(corrie).map(({ name, kind, on }) => [name, kind, on])).toEqual([
      ['middle-arm and rear-arm', 'pivot', 'chassis'],
      ['middle-housing', 'pivot', 'middle-arm'],
      ['rear-housing', 'pivot', 'rear-arm'],
      ['middle-rod at chassis', 'rod end', 'chassis'],
      ['middle-rod at middle-housing', 'rod end', 'middle-housing'],
      ['rear-rod at chassis', 'rod end', 'chassis'],
      ['rear-rod at rear-housing', 'rod end', 'rear-housing'],
    ]);
    expect(pivotNamed(corrie, 'rear-arm')?.points.map(pathText)).toEqual([
      'vehicle.members[1].pivot',
      'vehicle.members[2].pivot',
    ]);
    expect(pivotNamed(corrie, 'middle-housing')?.points.map(pathText)).toEqual([
      'vehicle.members[3].pivot',
      'vehicle.members[1].end',
    ]);
  });

  it('take the drawn end of the rocker along with the pivot of the beam that hangs there', () => {
    const moved = withSettings(scree, settingsFor([{ knob: knobsOf('bogie').z, to: 0.08 }]));
    const [rocker, bogie] = moved.vehicle.members;
    expect(rocker?.kind === 'bogie-beam' && rocker.rear.z).toBeCloseTo(0.08, 12);
    expect(bogie?.kind === 'bogie-beam' && bogie.pivot.z).toBeCloseTo(0.08, 12);
    expect(moved.vehicle.wheels).toBe(scree.vehicle.wheels);
  });

  it('carry everything that hangs on them when asked: ends, hubs, masses and rods below, but nothing of the chassis', () => {
    const pivot = pivotNamed(corrie, 'middle-arm');
    if (pivot === undefined) throw new Error('no pivot');
    const { x } = pivotKnobs(corrie, pivot, true);
    const moved = withSettings(corrie, settingsFor([{ knob: x, to: x.now - 0.02 }]));
    const [before, after] = [compile(corrie), compile(moved)];
    for (const name of ['middle', 'rear']) {
      const hub = (m: typeof before) => m.wheels.find((w) => w.name === name)?.hub.x ?? Number.NaN;
      expect(hub(after) - hub(before)).toBeCloseTo(-0.02, 12);
    }
    after.bodies.forEach((body, b) => {
      const by = body.centre.x - (before.bodies[b]?.centre.x ?? 0);
      expect(by).toBeCloseTo(['chassis', 'front-axle'].includes(body.name) ? 0 : -0.02, 12);
    });
    after.rods.forEach((rod, i) => {
      expect(rod.a.at).toEqual(before.rods[i]?.a.at);
      expect(rod.b.at.x - (before.rods[i]?.b.at.x ?? 0)).toBeCloseTo(-0.02, 12);
    });
  });

  function knobsOf(name: string) {
    const pivot = pivotNamed(scree, name);
    if (pivot === undefined) throw new Error(`no pivot ${name}`);
    return pivotKnobs(scree, pivot);
  }
});

describe('a plane for a map', () => {
  const plane = (kind: string, name: string) => {
    const found = planesOf(corrie).find((p) => p.kind === kind && p.name === name);
    if (found === undefined) throw new Error(`no ${kind} ${name}`);
    return found;
  };

  it('makes an arm longer along itself, with the housing, the hub, its mass and the end of the rod on it', () => {
    const { knob } = plane('arm', 'middle-arm').x;
    const moved = withSettings(corrie, settingsFor([{ knob, to: 0.08 }]));
    const [arm, before] = [moved.vehicle.members[1], corrie.vehicle.members[1]];
    if (arm?.kind !== 'arm' || before?.kind !== 'arm') throw new Error('no arm');
    expect(distance(arm.pivot, arm.end)).toBeCloseTo(0.08, 12);
    expect(knob.now).toBeCloseTo(distance(before.pivot, before.end), 12);
    const slope = (m: typeof arm) => (m.end.z - m.pivot.z) / (m.end.x - m.pivot.x);
    expect(slope(arm)).toBeCloseTo(slope(before), 12);
    const by = { x: arm.end.x - before.end.x, z: arm.end.z - before.end.z };
    const shift = (get: (s: typeof corrie) => { x: number; z: number } | undefined) => {
      const [a, b] = [get(moved), get(corrie)];
      return { x: (a?.x ?? 0) - (b?.x ?? 0), z: (a?.z ?? 0) - (b?.z ?? 0) };
    };
    for (const carried of [
      shift((s) => s.vehicle.wheels.find((w) => w.name === 'middle')?.at),
      shift((s) => s.vehicle.masses.find((m) => m.on === 'middle-housing')?.at),
      shift(
        (s) =>
          s.vehicle.members.flatMap((m) => (m.kind === 'rod' && m.name === 'middle-rod' ? [m.to] : []))[0],
      ),
      shift(
        (s) =>
          s.vehicle.members.flatMap((m) => (m.name === 'middle-housing' && 'pivot' in m ? [m.pivot] : []))[0],
      ),
    ]) {
      expect(carried.x).toBeCloseTo(by.x, 12);
      expect(carried.z).toBeCloseTo(by.z, 12);
    }
    expect(moved.vehicle.members[2]).toBe(corrie.vehicle.members[2]);
  });

  it('turns a torsion bar by its diameter and its preload, and several bars as one', () => {
    const bars = [plane('bar', 'middle torsion bars'), plane('bar', 'rear torsion bars')] as const;
    const both = together([...bars]);
    expect([both.x.knob.now, both.z.knob.now]).toEqual([0.0025, 0.35]);
    const settings = settingsFor([
      { knob: both.x.knob, to: 0.003 },
      { knob: both.z.knob, to: 0.3 },
    ]);
    expect(settings.map(({ path, value }) => [namedPath(corrie, path), value])).toEqual([
      ['elements[middle torsion bars].bar.section.diameter', 0.003],
      ['elements[rear torsion bars].bar.section.diameter', 0.003],
      ['elements[middle torsion bars].preload', 0.3],
      ['elements[rear torsion bars].preload', 0.3],
    ]);
  });

  it('has today in the middle of a pivot’s map', () => {
    const pivot = pivotNamed(corrie, 'middle-arm');
    if (pivot === undefined) throw new Error('no pivot');
    const { x, z } = pivotPlane(corrie, pivot);
    expect((x.from + x.to) / 2).toBeCloseTo(-0.33, 12);
    expect((z.from + z.to) / 2).toBeCloseTo(0.077, 12);
  });
});

describe('the figures of a vehicle', () => {
  const numbers = numbersOf(corrie);
  const named = new Map(numbers.map((knob) => [knob.name, knob]));

  it('are named by what they belong to, each once, and none is only looked at', () => {
    expect(named.size).toBe(numbers.length);
    expect(named.get('wheels[front].radius')?.now).toBe(0.055);
    expect(named.get('elements[middle torsion bars].bar.section.diameter')?.now).toBe(0.0025);
    expect(named.get('gravity')?.now).toBe(9.80665);
    expect([...named.keys()].filter((name) => /bodywork|scale|reference|count/.test(name))).toEqual([]);
  });

  it('are turned by 1 mm where they are places, 1° where they are angles, 1 % otherwise', () => {
    const turn = (name: string) => {
      const knob = named.get(name);
      if (knob === undefined) throw new Error(`no ${name}`);
      return turnOf(knob);
    };
    expect(turn('members[middle-arm].pivot.x')).toEqual({ per: '1 mm', step: 0.001 });
    expect(turn('members[middle-arm].bump')).toEqual({ per: '1°', step: Math.PI / 180 });
    expect(turn('members[front-axle].bump')?.per).toBe('1 %');
    expect(turn('masses[cab].mass')).toEqual({ per: '1 %', step: 0.006 });
    const still = numbers.find(
      (knob) => knob.now === 0 && knob.dimension !== 'length' && knob.dimension !== 'angle',
    );
    expect(still === undefined ? undefined : turnOf(still)).toBeUndefined();
  });

  it('come with the pins that several points share', () => {
    expect(sharedPins(corrie).map(({ name, moves }) => [name, moves.length])).toContainEqual([
      'middle-arm and rear-arm: pivot x',
      2,
    ]);
  });

  it('are none where no figure stands', () => {
    expect(knobAt(corrie, ['vehicle', 'name'])).toBeUndefined();
    expect(knobAt(corrie, ['vehicle', 'wheels', 9, 'radius'])).toBeUndefined();
    expect(knobAt(corrie, ['vehicle', 'masses', 0, 'count'])).toBeUndefined();
  });
});
