import { formatQuantity } from '../../../shared/units.ts';
import type { Ground } from '../../ground/ground.ts';
import { firstSegment, heightAt, lastSegment } from '../../ground/query.ts';
import type { Wheel } from '../../mechanism/mechanism.ts';
import { courseOf } from '../course.ts';
import type { WholeCheck } from './check.ts';

/** Steeper than 60° is a face, not a slope: the tangent of 60°. */
const steep = Math.sqrt(3);

/** Greatest single face between two stations, m: vertices of one rise without a break count together. */
function highestFace(ground: Ground, from: number, to: number): number {
  let highest = 0;
  let rise = 0;
  for (let i = firstSegment(ground, from), n = lastSegment(ground, to); i <= n; i++) {
    const dx = (ground.x[i + 1] as number) - (ground.x[i] as number);
    const dz = (ground.z[i + 1] as number) - (ground.z[i] as number);
    const inside = (ground.x[i] as number) > from && (ground.x[i + 1] as number) < to;
    rise = inside && Math.abs(dz) > steep * dx && (rise === 0 || rise > 0 === dz > 0) ? rise + dz : 0;
    highest = Math.max(highest, Math.abs(rise));
  }
  return highest;
}

/** Where the vehicle begins, no face cuts a wheel above its hub, and none higher than a hub lies between two wheels. */
export const startIsClear: WholeCheck = ({ scenario, mechanism, ground }, problems) => {
  const { start } = courseOf(scenario, ground);
  const stationOf = (wheel: Wheel) => start + wheel.hub.x - mechanism.reference.x;
  const path = scenario.run.start === undefined ? 'ground' : 'run.start';
  const hint = 'begin with a flat piece that is longer than the vehicle, or start elsewhere';
  const fromRear = [...mechanism.wheels].sort((a, b) => a.hub.x - b.hub.x);
  fromRear.forEach((wheel, i) => {
    const at = stationOf(wheel);
    const top =
      Math.max(heightAt(ground, at - 0.9 * wheel.radius), heightAt(ground, at + 0.9 * wheel.radius)) -
      heightAt(ground, at);
    const axle = Math.min(wheel.hub.z, wheel.radius);
    if (top > axle && highestFace(ground, at - wheel.radius, at + wheel.radius) > axle) {
      problems.error(
        path,
        `wheel '${wheel.name}' begins inside the ground: a face beside it is ${formatQuantity(top, 'length')} high, above its axle`,
        hint,
      );
      return;
    }
    const next = fromRear[i + 1];
    if (next === undefined) return;
    const rise = Math.abs(heightAt(ground, stationOf(next)) - heightAt(ground, at));
    if (rise > axle && highestFace(ground, at, stationOf(next)) > axle) {
      problems.error(
        path,
        `between the wheels '${wheel.name}' and '${next.name}' the ground begins with a face of ${formatQuantity(rise, 'length')}, above the axle`,
        hint,
      );
    }
  });
};
