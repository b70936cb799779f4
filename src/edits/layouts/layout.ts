import { formatName, formatVersion } from '../../../shared/schema/scenario.ts';
import { isObject, type Json } from '../../documents/json.ts';
import { type Berth, type Compound, gravity, lengthText, type Parts } from '../compounds/compound.ts';
import { readFigure, roundFigure } from '../figures.ts';

/** The few figures that a vehicle is begun with, SI. */
export interface LayoutSize {
  /** Unloaded, m. */
  readonly wheelRadius: number;
  /** From the middle of the foremost axle or bogie to that of the rearmost one, m. */
  readonly wheelbase: number;
  /** Of the whole vehicle, kg. */
  readonly mass: number;
  /** Full size over model; 1 for full size. */
  readonly scale?: number;
}

/** A vehicle to begin with. One file each; one line in registry.ts. */
export interface StartingLayout {
  readonly id: string;
  /** '6×6 with one bogie'. */
  readonly title: string;
  readonly says: string;
  /** Figures to offer before the user has given any: those of a model. */
  readonly usual: LayoutSize;
  /** The whole document, standing and ready to cross a small step. */
  make(size: LayoutSize): Json;
}

/** A compound at its station (m) with the names of its axle lines. */
export interface Group {
  readonly compound: Compound;
  readonly x: number;
  readonly label: string;
  readonly wheels: readonly string[];
}

/** Ground and drive, in wheel radii, loads and √(radius): small enough for every layout to cross in a crawl. */
const STEP = 0.3;
/** Torque of a wheel over its load times its radius: more than its grip can use. */
const TORQUE = 1.2;
/** Target speed over √(g·radius): a walk. */
const PACE = 0.25;

const noParts: Parts = { members: [], wheels: [], elements: [], masses: [] };

/** The vehicle's groups as parts, and what is left for the frame: its mass and the station that loads all axles alike. */
function assembled(groups: readonly Group[], { wheelRadius, mass }: LayoutSize) {
  const axles = groups.reduce((sum, { compound }) => sum + compound.axles, 0);
  const axleLoad = (mass * gravity) / axles;
  const middle =
    groups.reduce(
      (sum, { x, compound: { axles: n, centre = 0 } }) => sum + (x + centre * wheelRadius) * n,
      0,
    ) / axles;
  const parts = groups.reduce<Parts>((all, { compound, x, label, wheels }) => {
    const berth: Berth = {
      at: { x, z: wheelRadius },
      radius: wheelRadius,
      axleLoad,
      inward: x < middle ? 1 : -1,
      label,
      wheels,
    };
    const more = compound.make(berth);
    return {
      members: [...all.members, ...more.members],
      wheels: [...all.wheels, ...more.wheels],
      elements: [...all.elements, ...more.elements],
      masses: [...all.masses, ...more.masses],
    };
  }, noParts);
  return { parts, axleLoad, axles, middle };
}

/** What is left of the vehicle's mass for its frame, kg: a tenth at least. */
function frameMass({ wheels, masses }: Parts, { mass }: LayoutSize): number {
  const figure = (entry: Json, key: string) =>
    (isObject(entry) ? readFigure(entry[key], 'mass') : undefined) ?? 0;
  const carried = masses.reduce<number>((sum, item) => sum + figure(item, 'mass'), 0);
  const rolling = wheels.reduce<number>((sum, wheel) => sum + 2 * figure(wheel, 'massPerWheel'), 0);
  return Math.max(mass - carried - rolling, 0.1 * mass);
}

/** Frame and body over the wheels, from the rear end to the front end: their mass items, outline and belly. */
function chassis(r: number, weight: number, [rear, front]: readonly [number, number], middle: number) {
  const point = (x: number, z: number): Json => ({ x: lengthText(x), z: lengthText(z) });
  const length = front - rear;
  const [low, high] = [2.25 * r, 2.6 * r];
  return {
    mass: {
      name: 'frame',
      mass: roundFigure(weight, 'mass', 3),
      at: point(middle, 2.1 * r),
      inertia: roundFigure((weight * length ** 2) / 12, 'inertia'),
    },
    bodywork: {
      outlines: [{ points: [point(rear, low), point(front, low), point(front, high), point(rear, high)] }],
      belly: [point(rear + 0.3 * length, 2 * r), point(rear + 0.7 * length, 2 * r)],
    },
  };
}

/** The document of a vehicle made of groups, with level ground, a small step and two criteria. */
export function documentOf(title: string, groups: readonly Group[], size: LayoutSize): Json {
  const { wheelRadius: r, scale = 1 } = size;
  const { parts, axleLoad, middle } = assembled(groups, size);
  const ends = groups.flatMap(({ x, compound: { reach } }) => [x - (reach + 1) * r, x + (reach + 1) * r]);
  const [rear, front] = [Math.min(...ends), Math.max(...ends)];
  const { mass, bodywork } = chassis(r, frameMass(parts, size), [rear, front], middle);
  const speed = PACE * Math.sqrt(gravity * r);
  return {
    format: formatName,
    version: formatVersion,
    title: `New ${title}`,
    vehicle: {
      name: `New ${title}`,
      ...(scale === 1 ? {} : { scale }),
      masses: [mass, ...parts.masses],
      ...(parts.members.length === 0 ? {} : { members: parts.members }),
      ...(parts.elements.length === 0 ? {} : { elements: parts.elements }),
      wheels: parts.wheels,
      drive: {
        torquePerWheel: roundFigure((TORQUE * axleLoad * r) / 2, 'torque'),
        speed: roundFigure(speed, 'speed'),
        acceleration: roundFigure(1.5 * speed, 'acceleration'),
      },
      bodywork,
    },
    ground: [
      { kind: 'flat', length: roundFigure(front - rear + 4 * r, 'length') },
      {
        kind: 'step',
        height: roundFigure(STEP * r, 'length'),
        length: roundFigure(front - rear + 8 * r, 'length'),
      },
    ],
    run: {},
    criteria: [{ kind: 'wheel-load', least: '20 %' }, { kind: 'reaches' }],
  };
}
