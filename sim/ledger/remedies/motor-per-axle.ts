import { formatNumber } from '../../../shared/units.ts';
import type { DrivePart } from '../../driveline/driveline.ts';
import { motorPerAxle, readDriveline } from '../../driveline/layouts.ts';
import { inLine } from './line.ts';
import type { Remedy } from './remedy.ts';

/**
 * A motor for each driven axle line, on its carrier, like the one that there is today, with the whole reduction behind it:
 * speed stays, and no shaft or joint carries torque any more.
 */
export const motorForEach: Remedy = {
  kind: 'motor-per-axle',
  title: 'A motor for each axle',
  find(trouble) {
    const here = inLine(trouble);
    const entries = trouble.scenario.vehicle.driveline?.parts ?? [];
    const motors = entries.filter((part) => part.kind === 'motor');
    const [motor] = motors;
    if (here === undefined || motor?.kind !== 'motor' || here.ways.length <= motors.length) return [];
    const { scenario } = trouble;
    const lines = here.driveline.lastPart.flatMap((last, w) => {
      const way = here.ways.find((each) => each[0] === here.driveline.parts[last]);
      return last < 0 || way === undefined
        ? []
        : [{ wheel: w, ratio: whole(way), rating: way.find(rated)?.rating?.torque }];
    });
    const built = motorPerAxle.build(scenario.vehicle, {
      motor: { ...motor, count: 1 },
      lines,
      battery: scenario.vehicle.driveline?.battery,
    });
    if (built === undefined) return [];
    const ratios = [...new Set(lines.map(({ ratio }) => formatNumber(ratio)))];
    return [
      {
        says: `${lines.length} motors, each like one of '${motor.name}', on the axles, each with a reduction of ${ratios.join(' or ')}; shafts and joints gone, mass of the new gears not in it.`,
        scenario: { ...scenario, vehicle: { ...scenario.vehicle, driveline: readDriveline(built) } },
        sets: [],
      },
    ];
  },
};

/** Reduction from a source to the wheels. */
const whole = (way: readonly DrivePart[]): number => way.reduce((ratio, part) => ratio * part.law.ratio, 1);

const rated = (part: DrivePart): boolean => part.sort === 'gear' && part.rating !== undefined;
