import type { Steering } from './steering.ts';

/** Where the linkage stands at a steering angle. */
export interface Linked {
  /** Turn of the servo's lever or the pinion, rad; 0 straight ahead. */
  readonly turn: number;
  /** How much the king-pin turns for a turn of that: dδ/dφ. */
  readonly gear: number;
}

/** Share of a lever's reach beyond which it stands too near its dead centre to push. */
const deadCentre = 1e-3;

/**
 * Turn of the actuator's side of a linkage for a steering angle of the first line, rad; undefined where it cannot get
 * there. Straight ahead, lever and arm stand across the link and the arm across the rack.
 * Source: geometry of a four-bar linkage (a link as long as one likes stays parallel: a·sin φ = b·sin δ), of a rack.
 */
export function linkageAt(linkage: Steering['linkage'], angle: number): Linked | undefined {
  if (linkage.kind === 'direct') return { turn: angle, gear: 1 };
  if (linkage.kind === 'rack') {
    const lever = linkage.arm * Math.cos(angle);
    if (lever <= deadCentre * linkage.arm) return undefined;
    return { turn: (linkage.arm * Math.sin(angle)) / linkage.pinion, gear: linkage.pinion / lever };
  }
  const { lever, arm, link } = linkage;
  return link === undefined ? parallel(lever, arm, angle) : fourBar(lever, arm, link, angle);
}

function parallel(lever: number, arm: number, angle: number): Linked | undefined {
  const sine = (arm * Math.sin(angle)) / lever;
  const across = arm * Math.cos(angle);
  if (Math.abs(sine) >= 1 - deadCentre || across <= deadCentre * arm) return undefined;
  const turn = Math.asin(sine);
  return { turn, gear: (lever * Math.cos(turn)) / across };
}

/** Exact, with the pivots where lever and arm stand at right angles to the link straight ahead. */
function fourBar(lever: number, arm: number, link: number, angle: number): Linked | undefined {
  const end = { x: link + arm * Math.sin(angle), z: lever - arm + arm * Math.cos(angle) };
  const way = Math.hypot(end.x, end.z);
  const cosine = (lever ** 2 + way ** 2 - link ** 2) / (2 * lever * way);
  if (!(Math.abs(cosine) < 1)) return undefined;
  const turn = Math.atan2(end.x, end.z) - Math.acos(cosine);
  const x = (end.x - lever * Math.sin(turn)) / link;
  const z = (end.z - lever * Math.cos(turn)) / link;
  const driving = lever * (x * Math.cos(turn) - z * Math.sin(turn));
  const driven = arm * (x * Math.cos(angle) - z * Math.sin(angle));
  if (driven <= deadCentre * arm || driving <= deadCentre * lever) return undefined;
  return { turn, gear: driving / driven };
}

/** Largest angle up to `most`, rad, that a linkage reaches both ways, to a thousandth of it. */
export function reachOf(linkage: Steering['linkage'], most: number): number {
  const steps = 1000;
  for (let i = 1; i <= steps; i++) {
    const angle = (most * i) / steps;
    if (linkageAt(linkage, angle) === undefined || linkageAt(linkage, -angle) === undefined)
      return (most * (i - 1)) / steps;
  }
  return most;
}
