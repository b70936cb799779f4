import { JointForces } from '../joints/forces.ts';
import { type Kinematics, makeKinematics } from '../mechanism/kinematics.ts';
import type { Plant } from './plant.ts';

/**
 * Forces in joints and members of a vehicle in motion, at one instant: the forces that act then, the accelerations that
 * the next substep made of them, and the rod tensions that the rigid-body solver found for it. The free-body sums then
 * give back the solver's own joint forces, and what happens inside the members besides.
 */
export class Reactions {
  readonly #plant: Plant;
  readonly #forces: JointForces;
  readonly #parked: boolean;
  /** Placement and motion at the instant. */
  readonly #then: Kinematics;

  constructor(plant: Plant) {
    const { mechanism } = plant;
    this.#plant = plant;
    this.#forces = new JointForces(mechanism);
    this.#parked = mechanism.drive.speed === 0;
    this.#then = makeKinematics(mechanism.bodies.length);
  }

  /** Notes this instant: forces have been found, the bodies have not moved yet. */
  note(): void {
    const { k, wheels } = this.#plant;
    const { given } = this.#forces;
    for (const row of Object.keys(this.#then) as (keyof Kinematics)[]) this.#then[row].set(k[row]);
    given.spin.set(k.spin);
    wheels.forEach(({ line, torque }, w) => {
      given.groundX[w] = line.fx;
      given.groundZ[w] = line.fz;
      given.torque[w] = torque;
      given.holding[w] = this.#parked ? line.drag : 0;
    });
    this.#plant.readElements(given.travel, given.effort);
  }

  /** Forces at the instant that was noted, after the one substep of h seconds that followed it. Overwritten next time. */
  after(h: number): JointForces {
    const { k, mechanism } = this.#plant;
    const { given } = this.#forces;
    const then = this.#then;
    for (let b = 0; b < mechanism.bodies.length; b++) {
      given.ax[b] = ((k.vx[b] as number) - (then.vx[b] as number)) / h;
      given.az[b] = ((k.vz[b] as number) - (then.vz[b] as number)) / h;
      given.alpha[b] = ((k.spin[b] as number) - (then.spin[b] as number)) / h;
    }
    this.#plant.world.readTensions(given.tension, h);
    this.#forces.solve(then);
    return this.#forces;
  }
}
