import { type Channel, channels, column, type Recording } from '../../shared/recording.ts';
import { type Showing, shownScale } from '../../shared/units.ts';
import { unitOf } from '../../sim/frames/units.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Shown } from '../charts/figures.ts';
import { type Curve, dashOf, rangeOf, type Strip } from '../charts/strip.ts';
import { dimensionOf } from '../panels/figures.ts';
import type { Solved } from '../solved.ts';

/** A recorded column that may be drawn as a line: 'gripUse:rear' among `Settings.lines`. */
export interface LineOffer {
  readonly line: string;
  readonly channel: Channel;
  readonly index: number;
  /** Wheel, member, joint, element, rod or source; 'vehicle' for the whole. */
  readonly of: string;
  /** 'grip use, rear'. */
  readonly title: string;
  /** SI unit. */
  readonly unit: string;
  /** What it is, in a sentence. */
  readonly says: string;
}

/** What channels are called; the others by their own name, taken apart: 'rodTension' is 'rod tension'. */
const names: Readonly<Partial<Record<Channel, string>>> = {
  heaveAcceleration: 'heave acceleration',
  lost: 'energy lost',
  work: 'work of the drive',
  x: 'place forward',
  z: 'height',
  angle: 'angle of the body',
  gap: 'distance from the ground',
  depth: 'depth in the tyre',
  torque: 'drive torque',
  roll: 'roll angle',
  motion: 'travel of the member',
  sourceTorque: 'motor torque',
  sourceSpeed: 'motor speed',
  sourceCurrent: 'motor current',
  unbalanced: 'forces left over',
  groundX: 'ground force, forward',
  groundZ: 'ground force, up',
  elementTravel: 'travel or twist',
  elementEffort: 'force or torque',
  pinX: 'pin force, forward',
  pinZ: 'pin force, up',
  pinMoment: 'moment of the guide',
  axial: 'axial force',
  shear: 'shear force',
  bending: 'bending moment',
  bendingAt: 'place of the bending moment',
};

/** 'gripUse' is 'grip use'. */
export const channelTitle = (channel: Channel): string =>
  names[channel] ?? channel.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** The name under which a column is kept. Names of things are the document's own, and may hold colons themselves. */
export const lineOf = (channel: Channel, of: string): string => `${channel}:${of}`;

type Measured = Pick<Mechanism, 'members' | 'elements' | 'joints'>;

/** Every column of a recording that a line may show, in the order in which they are recorded. */
export function offersOf(mechanism: Measured, recording: Pick<Recording, 'columns'>): readonly LineOffer[] {
  return recording.columns
    .filter(({ channel }) => channel !== 'time' && channel !== 'station' && channel !== 'wheelStation')
    .map(({ channel, index, of }) => {
      const whole = channels[channel].per === 'run';
      const name = whole ? 'vehicle' : of;
      const title = whole ? channelTitle(channel) : `${channelTitle(channel)}, ${of}`;
      const unit = unitOf(mechanism, { channel, index, of });
      return {
        line: lineOf(channel, name),
        channel,
        index,
        of: name,
        title,
        unit,
        says: channels[channel].says,
      };
    });
}

/** Offers that fit what was typed: every word of it, anywhere in title, name or unit. */
export function offersFor(offers: readonly LineOffer[], typed: string): readonly LineOffer[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  return offers.filter(({ title, says }) => {
    const text = `${title} ${says}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
}

/** How figures of a line are shown, with as many decimals as suit the largest of them. */
function shownOf(unit: string, most: number, showing: Showing): Shown {
  const dimension = dimensionOf(unit);
  const { unit: text, factor } =
    unit === '1'
      ? { unit: '%', factor: 100 }
      : dimension === undefined
        ? { unit, factor: 1 }
        : shownScale(dimension, most, showing);
  const size = most * factor;
  const decimals = size > 0 ? Math.min(4, Math.max(0, 2 - Math.floor(Math.log10(size)))) : 1;
  return { unit: text, factor, decimals };
}

function greatest(values: Float64Array): number {
  let most = 0;
  for (const value of values) if (Number.isFinite(value)) most = Math.max(most, Math.abs(value));
  return most;
}

/** A column of another run of the same name and thing; undefined where it has none. */
function sameIn(before: Recording | undefined, { channel, of }: LineOffer) {
  const head = before?.columns.find(
    (each) => each.channel === channel && (each.of === of || channels[channel].per === 'run'),
  );
  return before === undefined || head === undefined ? undefined : column(before, channel, head.index);
}

/** The station that a line of a thing runs over: a wheel's own one, the vehicle's for everything else. */
const stationOf = (recording: Recording, { channel, index }: LineOffer): Float64Array =>
  channels[channel].per === 'wheel' ? column(recording, 'wheelStation', index) : column(recording, 'station');

function curveOf(solved: Solved, before: Solved | null, offer: LineOffer, place: number): Curve {
  const { recording, mechanism } = solved;
  const was = sameIn(before?.recording, offer);
  const index = before?.recording.wheels.indexOf(offer.of) ?? -1;
  const wheel = channels[offer.channel].per === 'wheel';
  return {
    name: offer.of,
    key: wheel ? String(mechanism.wheels[offer.index]?.axle ?? '') : offer.of.slice(0, 3),
    station: stationOf(recording, offer),
    values: column(recording, offer.channel, offer.index),
    dash: dashOf(place),
    ...(was === undefined || before === null
      ? {}
      : {
          before: {
            station: stationOf(before.recording, { ...offer, index: Math.max(0, index) }),
            time: column(before.recording, 'time'),
            values: was,
          },
        }),
  };
}

/** A strip of lines of one quantity and unit, with what they are. */
export interface LineStrip extends Strip {
  readonly offers: readonly LineOffer[];
}

/** Strips of the lines that a run has: those of one quantity and one unit share a strip, in the order in which they were added. */
export function lineStrips(
  solved: Solved,
  before: Solved | null,
  lines: readonly string[],
  showing: Showing,
): readonly LineStrip[] {
  const offers = offersOf(solved.mechanism, solved.recording);
  const wanted = lines.flatMap((line) => offers.find((offer) => offer.line === line) ?? []);
  const groups = new Map<string, LineOffer[]>();
  for (const offer of wanted) {
    const key = `${offer.channel} ${offer.unit}`;
    groups.set(key, [...(groups.get(key) ?? []), offer]);
  }
  return [...groups.values()].map((group) => {
    const curves = group.map((offer, place) => curveOf(solved, before, offer, place));
    const most = Math.max(...curves.map(({ values }) => greatest(values)));
    const { channel, unit } = group[0] as LineOffer;
    const shown = shownOf(unit, most, showing);
    const title = channelTitle(channel);
    return {
      title: title.charAt(0).toUpperCase() + title.slice(1),
      shown,
      curves,
      range: rangeOf(curves, shown, 0),
      references: [0],
      offers: group,
    };
  });
}

/** Lines of a vehicle with one more, or one less where it is there already. */
export function toggled(lines: readonly string[], line: string): readonly string[] {
  return lines.includes(line) ? lines.filter((each) => each !== line) : [...lines, line];
}
