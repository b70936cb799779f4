import type { LedgerLine } from '../../shared/report.ts';
import { formatQuantity, formatShare } from '../../shared/units.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { depthUnder } from '../mechanism/tyres.ts';
import { linkageAt } from './linkage.ts';
import { contactLength, jackingOf, scrubOfRound, scrubOfSquare } from './scrub.ts';
import type { SteeredLine, Steering } from './steering.ts';

/** What turning the standing wheels of one line takes; figures of ONE wheel. */
export interface SteeredWheel {
  readonly line: string;
  readonly axle: number;
  readonly count: number;
  readonly load: number;
  /** King-pin offset at the ground (scrub radius) under this load, and trail from caster, m. */
  readonly offset: number;
  readonly trail: number;
  /** Contact, m, and whether its width is a guess for want of the tyre's. */
  readonly length: number;
  readonly width: number;
  readonly widthGuessed: boolean;
  readonly friction: number;
  /** Torque about the king-pin, N·m: by the formula of the square contact and by that of the round one. */
  readonly square: number;
  readonly round: number;
  /** Jacking at the greatest angle, N·m. */
  readonly jacking: number;
}

/** Torque at one steering angle of the first line. */
export interface SteerPoint {
  /** rad, and turn of the servo or motor, rad. */
  readonly angle: number;
  readonly turn: number;
  /** Torque of ONE servo or motor by the lower and by the higher formula, N·m. */
  readonly least: number;
  readonly most: number;
}

/** What turning the standing wheels takes, and how near the servo or motor is to its limit. */
export interface SteeringStudy {
  readonly name: string;
  readonly wheels: readonly SteeredWheel[];
  readonly points: readonly SteerPoint[];
  readonly worst: SteerPoint;
  readonly uses: readonly LedgerLine[];
  readonly remarks: readonly string[];
  readonly cautions: readonly string[];
  readonly pass: boolean;
}

/** Steering angles looked at, each way. */
const steps = 12;

/**
 * Torque that a steering needs to turn its wheels while the vehicle stands still, over the steering angle.
 * `loads`: vertical load of each axle line, N. Scrub by two published formulas as a range; jacking of the king-pin's
 * inclination counts in the direction that is harder; that of caster cancels out between left and right, its trail counts
 * as offset. The higher figure is held against the limit.
 */
export function studySteering(
  mechanism: Mechanism,
  steering: Steering,
  loads: ArrayLike<number>,
): SteeringStudy {
  const wheels = steering.lines.map((line) => wheelOf(mechanism, line, loads[line.wheel] ?? 0));
  const points = pointsOf(steering, wheels);
  const worst = points.reduce((most, point) => (point.most > most.most ? point : most));
  const use = limitUse(steering, worst);
  return {
    name: steering.name,
    wheels,
    points,
    worst,
    uses: [use],
    remarks: remarksOf(steering, wheels),
    cautions: [
      'Keep fingers and cables out of levers, links and wheels while the steering has power: it pinches, and may move by itself when it is switched on.',
      'A servo or motor that is held at standstill draws its full current and gets hot: do not hold it there.',
      ...(mechanism.mass > 500
        ? ['Steering of full-size vehicles: licensed work only, by local rules.']
        : []),
    ],
    pass: use.use === null || use.use <= 1,
  };
}

function wheelOf(mechanism: Mechanism, line: SteeredLine, lineLoad: number): SteeredWheel {
  const wheel = mechanism.wheels[line.wheel] as Mechanism['wheels'][number];
  const load = lineLoad / wheel.count;
  const depth = depthUnder(load, wheel.tyre.foundation / wheel.count, wheel.radius);
  const length = line.length ?? contactLength(wheel.radius, depth);
  const width = line.width ?? length;
  const offset = line.offset + (line.fromHub ? depth * Math.tan(line.inclination) : 0);
  const trail = (wheel.radius - depth) * Math.tan(line.caster);
  const lever = Math.hypot(offset, trail);
  return {
    line: wheel.name,
    axle: wheel.axle,
    count: wheel.count,
    load,
    offset,
    trail,
    length,
    width,
    widthGuessed: line.width === undefined,
    friction: line.friction,
    square: scrubOfSquare(line.friction, load, lever, Math.sqrt(length * width)),
    round: scrubOfRound(line.friction, load, lever, width),
    jacking: jackingOf(load, offset, line.inclination, line.most),
  };
}

/** Torque over the angle of the first line, both ways; the other lines follow in proportion to their greatest angles. */
function pointsOf(steering: Steering, wheels: readonly SteeredWheel[]): SteerPoint[] {
  const most = steering.lines[0]?.most ?? 0;
  return Array.from({ length: 2 * steps + 1 }, (_, i) => (most * (i - steps)) / steps).flatMap((angle) => {
    const linked = linkageAt(steering.linkage, angle);
    if (linked === undefined) return [];
    let [least, greatest] = [0, 0];
    steering.lines.forEach((line, l) => {
      const wheel = wheels[l] as SteeredWheel;
      const share = line.most / most;
      const jacking = Math.abs(jackingOf(wheel.load, wheel.offset, line.inclination, angle * share));
      const part =
        (wheel.count * share * linked.gear) / (steering.ratio * steering.efficiency * steering.count);
      least += part * (Math.min(wheel.square, wheel.round) + jacking);
      greatest += part * (Math.max(wheel.square, wheel.round) + jacking);
    });
    return [{ angle, turn: linked.turn * steering.ratio, least, most: greatest }];
  });
}

function limitUse({ name, index, torque }: Steering, worst: SteerPoint): LedgerLine {
  const shown = (value: number) => formatQuantity(value, 'torque');
  const at = formatQuantity(Math.abs(worst.angle), 'angle', 2, 'deg');
  const says =
    torque === undefined
      ? `'${name}' at standstill: ${shown(worst.most)} at ${at}; what its servo or motor gives is not known`
      : `'${name}' at standstill: ${shown(worst.most)} of ${shown(torque)} (${formatShare(worst.most / torque)}) at ${at}`;
  return {
    sort: 'motor',
    of: name,
    path: `vehicle.steering[${index}].torque`,
    quantity: 'torque',
    use: torque === undefined ? null : worst.most / torque,
    carries: worst.most,
    limit: torque ?? null,
    unit: 'N·m',
    ...(torque === undefined ? {} : { how: 'given' as const, spread: 0 }),
    says,
  };
}

function remarksOf({ lines }: Steering, wheels: readonly SteeredWheel[]): string[] {
  const guessed = wheels.filter(({ widthGuessed }) => widthGuessed).map(({ line }) => `'${line}'`);
  return [
    "Two formulas, shown as a range: a square contact of the same area as the tyre's (its length follows from the load), and a round one as wide as the tyre. The higher one counts.",
    ...(guessed.length === 0
      ? []
      : [`The width of ${guessed.join(', ')} is not known: the contact is taken as wide as it is long.`]),
    ...(lines.some(({ caster }) => caster !== 0)
      ? [
          'Caster lifts one side and lowers the other: its jacking cancels out between them; its trail counts as offset.',
        ]
      : []),
    'Standing still: as soon as the wheels roll it takes much less.',
  ];
}
