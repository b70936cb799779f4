/**
 * Output speed over input speed of a joint with a cross, bent by `angle`, at a turn of its input yoke (rad) from where
 * that yoke stands across the plane of the two shafts: cos β/(1 − sin² β·cos² θ) from cos β to 1/cos β.
 * Source: kinematics of the cardan joint, machine design texts.
 */
export const speedRatio = (angle: number, turn: number): number =>
  Math.cos(angle) / (1 - (Math.sin(angle) * Math.cos(turn)) ** 2);

/**
 * Greatest angle by which the output of such a joint runs ahead of and behind its input, rad:
 * tan ε = (1 − cos β)/(2·√cos β). Source: the same.
 */
export function errorAngle(angle: number): number {
  const c = Math.cos(angle);
  return Math.atan2(1 - c, 2 * Math.sqrt(c));
}
