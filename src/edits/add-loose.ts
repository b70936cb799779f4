import { distance, type Vec2 } from '../../shared/geometry/vec.ts';
import { isObject, type Json } from '../documents/json.ts';
import { readFigure, readPoint, roundFigure, writePoint } from './figures.ts';
import { entriesAt } from './lists.ts';
import type { Proportions } from './proportions.ts';
import { freeEnds, nearestTo, roomForAxle } from './room.ts';
import type { Site } from './site.ts';
import { wheelFigures } from './wheel-figures.ts';

const millimetres = { x: '0 mm', z: '0 mm' } as const;

/** A point of a new entry as it goes into the document. */
const pointAt = (at: Vec2, { carriage }: Site): Json => writePoint(at, millimetres, carriage.grid);

/** Figures of a wheel for a vehicle that has none. */
function firstWheel({ radius, mass, axles }: Proportions): { readonly [key: string]: Json } {
  return wheelFigures({ radius, load: (mass * 9.81) / (2 * axles), mass: 0.025 * mass });
}

/** An axle line like the last one, at a free end of a member near by, else on the chassis where there is room. */
function wheel(site: Site): Json {
  const { document, carriage, proportions, at } = site;
  const like = entriesAt(document, ['vehicle', 'wheels']).at(-1)?.value;
  const { name: _name, on: _on, at: _at, reaction: _reaction, ...figures } = like ?? firstWheel(proportions);
  const reach = at === undefined ? undefined : 0.5 * proportions.radius;
  const end = nearestTo(freeEnds(carriage), (point) => point.at, at, reach);
  const hub = end?.at ?? at ?? roomForAxle(document, proportions);
  const on = end?.on[0];
  return { ...(on === undefined ? {} : { on }), at: pointAt(hub, site), ...figures };
}

/** Centre of the mass items, m. */
function centreOf(document: Json): Vec2 | undefined {
  const items = entriesAt(document, ['vehicle', 'masses']).flatMap(({ value }) => {
    const at = readPoint(value.at);
    const mass = readFigure(value.mass, 'mass');
    return at === undefined || mass === undefined ? [] : [{ at, mass }];
  });
  const all = items.reduce((sum, { mass }) => sum + mass, 0);
  if (!(all > 0)) return undefined;
  const mean = (key: 'x' | 'z') => items.reduce((sum, { at, mass }) => sum + at[key] * mass, 0) / all;
  return { x: mean('x'), z: mean('z') };
}

/** A twentieth of the vehicle's mass: in its centre, or where it was put, on the chassis or on the member whose end is there. */
function massItem(site: Site): Json {
  const { document, carriage, proportions, at } = site;
  const on = carriage.points.find(
    ({ role, at: place }) =>
      at !== undefined && (role === 'own' || role === 'seat') && distance(place, at) <= carriage.tolerance,
  )?.member;
  const place = at ?? centreOf(document) ?? { x: 0, z: 2 * proportions.radius };
  return {
    ...(on === undefined ? {} : { on }),
    mass: roundFigure(0.05 * proportions.mass, 'mass'),
    at: pointAt(place, site),
  };
}

/** A box two wheels long and one high, above the place or above the wheels. */
function outline(site: Site): Json {
  const { radius } = site.proportions;
  const { x, z } = site.at ?? { x: centreOf(site.document)?.x ?? 0, z: 2 * radius };
  const corners = [
    [-2, 0],
    [2, 0],
    [2, 2],
    [-2, 2],
  ] as const;
  return { points: corners.map(([i, k]) => pointAt({ x: x + i * radius, z: z + k * radius }, site)) };
}

/** A fifth of the weight, forward, at the front of the chassis or where it was put. */
function pull(site: Site): Json {
  const { proportions, carriage, at } = site;
  const front = Math.max(0, ...carriage.points.filter(({ role }) => role === 'hub').map((hub) => hub.at.x));
  return {
    at: pointAt(at ?? { x: front + proportions.radius, z: 1.5 * proportions.radius }, site),
    force: roundFigure(0.2 * proportions.mass * 9.81, 'force'),
    angle: '0 deg',
  };
}

/** A winch of its own motor that pulls a third of the weight: its rope ten wheel radii long, its drum a quarter of one. */
function winch(site: Site): Json {
  const { proportions, carriage, at } = site;
  const { radius, mass } = proportions;
  const front = Math.max(0, ...carriage.points.filter(({ role }) => role === 'hub').map((hub) => hub.at.x));
  const weight = mass * 9.81;
  const torque = ((weight / 3) * radius) / 8;
  return {
    at: pointAt(at ?? { x: front + radius, z: 1.5 * radius }, site),
    rope: {
      length: roundFigure(10 * radius, 'length'),
      diameter: roundFigure(Math.max(0.02 * radius, 2e-4), 'length'),
      kind: 'synthetic',
    },
    drum: { core: roundFigure(radius / 4, 'length'), width: roundFigure(radius / 2, 'length') },
    reduction: { ratio: 100 },
    motor: { stallTorque: roundFigure(torque / 35, 'torque'), noLoadSpeed: '3000 rpm' },
  };
}

/** A steering of the foremost axle line by a servo that turns the king-pin itself. */
function steering({ document, proportions: { radius, mass, axles } }: Site): Json {
  const lines = entriesAt(document, ['vehicle', 'wheels']).flatMap(({ value }) => {
    const at = readPoint(value.at);
    return at !== undefined && typeof value.name === 'string' ? [{ name: value.name, x: at.x }] : [];
  });
  const foremost = lines.reduce(
    (best, line) => (line.x > best.x ? line : best),
    lines[0] ?? { name: 'front', x: 0 },
  );
  const load = (mass * 9.81) / axles;
  return {
    lines: [{ wheel: foremost.name, most: '30 deg' }],
    torque: roundFigure(0.3 * load * radius, 'torque'),
  };
}

/** Entries of lists without kinds, by the written path of the list: one maker each. */
const makers: Readonly<Record<string, (site: Site) => Json>> = {
  'vehicle.wheels': wheel,
  'vehicle.masses': massItem,
  'vehicle.bodywork.outlines': outline,
  'vehicle.driveline.controllers': () => ({ currentLimit: '20 A' }),
  'vehicle.winches': winch,
  'vehicle.steering': steering,
  'run.pulls': pull,
};

/** A new entry of a list without kinds, by the written path of the list; undefined for another list. */
export function loose(site: Site, list: string): Json | undefined {
  const made = Object.hasOwn(makers, list) ? makers[list]?.(site) : undefined;
  return made !== undefined && isObject(made) ? made : undefined;
}
