import type { Recording, RunEnd, RunEvent } from '../../shared/recording.ts';
import { clearanceOf } from '../frames/clearance.ts';
import { Frames, namesOf } from '../frames/frames.ts';
import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Course } from '../scenario/course.ts';
import { Ending, type Goal } from './ending.ts';
import type { Command, Plant } from './plant.ts';
import { Reactions } from './reactions.ts';
import { findDivergence } from './sanity.ts';
import { setDown } from './settle.ts';
import { type Before, energyOf, snapshotOf } from './snapshot.ts';
import { chooseSubstep, stiffestMotion } from './substep.ts';
import { Watch } from './watch.ts';

/** How far a run has come. */
export interface Progress {
  readonly time: number;
  readonly station: number;
  /** Share of the way or of the time, whichever is further, 0 to 1. */
  readonly share: number;
}

/** Frames between two progress messages. */
const progressEvery = 24;

/** Most substeps of a run, some 20 minutes of a six-wheeler: an hour of model time at 28 kHz. */
const mostSubsteps = 1e8;

/** Regulator: full torque at this share of the target speed off. Definition of our own: tight enough to hold a crawl. */
const fullTorqueAt = 0.05;

/**
 * Sets the vehicle down at the start, then drives it over the ground and records. The frames up to the end are good in
 * every case; a run that diverges ends there with its cause.
 * @throws RangeError when a forced substep is too long for the stiffest part.
 */
export function record(
  mechanism: Mechanism,
  ground: Ground,
  course: Course,
  tell?: (progress: Progress) => void,
): Recording {
  const substep = chooseSubstep(mechanism, course.rate, course.substep);
  const { plant, standing } = setDown(mechanism, ground, course.start);
  const run = new Run(plant, course, substep.h, substep.perFrame);
  const end = run.toTheEnd(tell);
  const { frames, block } = run.frames.pack();
  const events = withEnd(run.watch.events, end);
  return {
    mode: 'drive',
    frames,
    rate: course.rate,
    substep: substep.h,
    substepSays: substep.says,
    block,
    columns: run.frames.columns,
    ...namesOf(mechanism),
    standing,
    events,
    end,
  };
}

/** One run under way. */
class Run {
  readonly frames: Frames;
  readonly watch: Watch;
  readonly #plant: Plant;
  readonly #reactions: Reactions;
  readonly #course: Course;
  readonly #ending: Ending;
  readonly #h: number;
  readonly #perFrame: number;
  readonly #sense: -1 | 0 | 1;
  readonly #speed: number;
  #bellyDown = false;

  constructor(plant: Plant, course: Course, h: number, perFrame: number) {
    const { mechanism } = plant;
    this.#plant = plant;
    this.#reactions = new Reactions(plant);
    this.#course = course;
    this.#h = h;
    this.#perFrame = perFrame;
    this.#speed = Math.abs(mechanism.drive.speed);
    this.#sense = Math.sign(mechanism.drive.speed) as -1 | 0 | 1;
    this.frames = new Frames(mechanism, true);
    this.watch = new Watch(plant);
    const goal: Goal = { until: course.until, sense: this.#sense, time: course.time, speed: this.#speed };
    this.#ending = new Ending(goal, mechanism.size, mechanism.gravity);
  }

  toTheEnd(tell: ((progress: Progress) => void) | undefined): RunEnd {
    const plant = this.#plant;
    plant.reset();
    plant.held = 0;
    plant.evaluate(this.#h, this.#command(0));
    plant.reset();
    const start = energyOf(plant);
    let before: Before | undefined;
    for (let frame = 0; ; frame++) {
      const time = frame * this.#perFrame * this.#h;
      const diverged = findDivergence(plant, time, this.#speed);
      if (diverged) return diverged;
      this.frames.add(snapshotOf(plant, time, start, before));
      this.#reactions.note();
      before = { time, rise: plant.k.vz[0] as number };
      this.#watchBelly(time);
      const end = this.#ending.look(plant, time) ?? this.#endless(time);
      if (end) {
        this.#moveOnce();
        return end;
      }
      if (tell && frame % progressEvery === 0) tell(this.#progress(time));
      this.#advance(time);
    }
  }

  /**
   * Substeps to the next frame. Forces of the present state are already found when it begins (by the frame before), so
   * that a frame shows forces and poses of one instant.
   */
  #advance(time: number): void {
    const plant = this.#plant;
    for (let n = 1; n <= this.#perFrame; n++) {
      if (n === 1) this.#moveOnce();
      else plant.move(this.#h);
      const now = time + n * this.#h;
      plant.evaluate(this.#h, this.#command(now));
      this.watch.look(plant, now, this.#h);
    }
  }

  /**
   * The substep after a frame tells the accelerations at the frame, and with them the forces in its joints. A frame whose
   * forces are not finite is the last one of a run that diverges, and is taken away.
   */
  #moveOnce(): void {
    this.#plant.move(this.#h);
    if (!this.frames.addForces(this.#reactions.after(this.#h))) this.frames.drop();
  }

  /** A run that nobody would see the end of, because its parts are too stiff for their masses, ends with its first frame. */
  #endless(time: number): RunEnd | undefined {
    const count = this.#course.time / this.#h;
    if (count <= mostSubsteps) return undefined;
    const { name } = stiffestMotion(this.#plant.mechanism);
    return {
      kind: 'diverged',
      time,
      station: this.#plant.reference().x,
      quantity: 'the number of substeps',
      body: name,
      cause: `${name} is so stiff for its mass that the run takes ${count.toPrecision(2)} substeps, more than ${mostSubsteps.toPrecision(1)}: check its figures and masses, or shorten run.time`,
    };
  }

  /** Speed rises at the given acceleration; a target of zero parks. */
  #command(time: number): Command {
    if (this.#sense === 0) return { kind: 'park', drag: 0 };
    const { acceleration } = this.#plant.mechanism.drive;
    const speed = this.#sense * Math.min(this.#speed, acceleration * time);
    return { kind: 'drive', speed, gain: this.#plant.mechanism.size / (fullTorqueAt * this.#speed) };
  }

  #watchBelly(time: number): void {
    if (this.#plant.mechanism.belly.points.length === 0) return;
    const { mechanism, k, ground } = this.#plant;
    const down = clearanceOf(mechanism, k, ground) < 0;
    if (down && !this.#bellyDown)
      this.watch.events.push({ kind: 'body-touch', time, station: this.#plant.reference().x });
    this.#bellyDown = down;
  }

  #progress(time: number): Progress {
    const station = this.#plant.reference().x;
    const { start, until, time: most } = this.#course;
    const way = this.#sense === 0 ? 0 : (station - start) / (until - start);
    return { time, station, share: Math.max(0, Math.min(1, Math.max(way, time / most))) };
  }
}

/** Whether all figures of an event are finite: between the last good frame and a divergence they may not be. */
const isSound = (event: RunEvent): boolean =>
  Object.values(event).every((value) => typeof value !== 'number' || Number.isFinite(value));

/** Events in order of time, with how the run ended where that is an event too. */
function withEnd(events: readonly RunEvent[], end: RunEnd): RunEvent[] {
  const place = { time: end.time, station: end.station };
  const last: RunEvent[] =
    end.kind === 'stuck'
      ? [{ kind: 'stuck', ...place, cause: end.cause }]
      : end.kind === 'tipped'
        ? [{ kind: 'tip-over', ...place }]
        : [];
  return [...events.filter(isSound), ...last].sort((a, b) => a.time - b.time);
}
