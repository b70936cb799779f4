import type { Kinematics } from '../../mechanism/kinematics.ts';

/**
 * Changes of state in one substep after which a part stops looking for one that fits and takes one that cannot give
 * energy: friction that grows with what it carries may leave none that fits (a worm that drives a heavy rotor back).
 */
export const mostChanges = 6;

/**
 * A branch of the drive tree, seen from the shaft that turns it. Over one substep it answers to the speed s at which that
 * shaft turns when the substep ends: the torque that it takes is `slope`·s + `offset`. Inertia, friction and losses are
 * in these two figures, for the state (driving, slipping, stuck …) that it is in; `settle` finds whether the speed
 * that came out of it fits the state, and changes the state when it does not.
 *
 * Speeds rad/s and torques N·m in the sense that drives forward, speeds in world axes.
 */
export interface Branch {
  slope: number;
  offset: number;
  /** Torque that it takes, and speed at which it is turned, as found last. */
  torque: number;
  speed: number;
  /** Speed at the end of the substep before. */
  before: number;
  /** Takes note of the motion of bodies and wheels before a substep of h seconds. */
  begin(k: Kinematics, h: number): void;
  /** Finds slope and offset for the present states, from the wheels up. */
  rise(h: number): void;
  /** Turns it at a speed, down to the wheels. */
  turn(speed: number, h: number): void;
  /** Whether all states fit; those that do not are changed. With `one`, only the first of them. */
  settle(one: boolean): boolean;
  /** Moves wheels on, and adds up losses, J. */
  finish(h: number): number;
  /** Energy of the shafts below that have an inertia of their own, J. Wheels are not counted. */
  kinetic(): number;
  /** Speed at its shaft when every wheel below rolls at 1 m/s, rad/m. */
  rolling(): number;
  /** Spin inertias of the wheels below over their radii squared, kg: what they weigh more than they do when rolling. */
  rollingMass(): number;
}
