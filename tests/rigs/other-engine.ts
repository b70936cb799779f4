/*
 * The same vehicle in MuJoCo (npm mujoco-js, the official WebAssembly build), a general-purpose engine that solves in
 * joint coordinates with contacts, springs and constraints of its own. A vehicle is written down in the engine's own
 * words (MJCF) by the test, wheels are its spheres, which in the plane are circles, and the ground is its boxes.
 * Its axes are ours (x forward, z up); a turn about 0 −1 0 raises the nose.
 */
import load, { type MainModule, type MjData, type MjModel } from 'mujoco-js';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Passage } from './passage.ts';

/** The engine, ready to use: about half a second. */
export const openEngine = (): Promise<MainModule> => load();

/** Slow going: m/s, s, m, N/m and N·s/m. */
export interface Pace {
  readonly speed: number;
  readonly step: number;
  readonly every: number;
  readonly stiffness: number;
  readonly damping: number;
}

/** Ground as boxes whose upper faces are the segments; vertical faces are the sides of the boxes behind them. */
export function boxesOf(vertices: readonly Vec2[], friction: number): string {
  const half = 0.25;
  return vertices
    .slice(1)
    .map((b, i) => {
      const a = vertices[i] as Vec2;
      const length = Math.hypot(b.x - a.x, b.z - a.z);
      if (b.x === a.x) return '';
      const lean = Math.atan2(b.z - a.z, b.x - a.x);
      const x = 0.5 * (a.x + b.x) + half * Math.sin(lean);
      const z = 0.5 * (a.z + b.z) - half * Math.cos(lean);
      return `<geom type="box" size="${0.5 * length} 1 ${half}" pos="${x} 0 ${z}" euler="0 ${-lean} 0" friction="${friction} 0 0" condim="${friction > 0 ? 3 : 1}"/>`;
    })
    .join('\n');
}

/** A world of this ground and this vehicle, whose root body starts at `at` with freedoms x, z and pitch in that order. */
export function worldOf(step: number, gravity: number, ground: string, vehicle: string, more = ''): string {
  return `<mujoco>
<compiler angle="radian"/>
<option timestep="${step}" gravity="0 0 ${-gravity}" integrator="implicitfast" cone="elliptic" tolerance="1e-12" iterations="200"/>
<default><geom solref="${2 * step} 1" solimp="0.99 0.99 0.001" contype="1" conaffinity="1"/><equality solref="${2 * step} 1" solimp="0.999 0.999 0.001"/></default>
<worldbody>
${ground}
${vehicle}
</worldbody>
${more}
</mujoco>`;
}

/** A model under way. `free` gives its memory back. */
export interface Scene {
  readonly engine: MainModule;
  readonly model: MjModel;
  readonly data: MjData;
  free(): void;
}

/** Opens a world. */
export function sceneOf(engine: MainModule, xml: string): Scene {
  const files = (engine as unknown as { FS: { writeFile(path: string, text: string): void } }).FS;
  files.writeFile('/world.xml', xml);
  const model = engine.MjModel.loadFromXML('/world.xml');
  if (!model) throw new Error('the engine does not read this world');
  const data = new engine.MjData(model);
  if (!data) throw new Error('the engine has no room for this world');
  return {
    engine,
    model,
    data,
    free() {
      data.delete();
      model.delete();
    },
  };
}

/**
 * Moves a vehicle on by a hand that follows a station as a spring: it pulls level at the root's x (`towed`), or gives
 * all actuators an equal share of the torque that this pull would need on wheels of this radius. Wheels are the geoms
 * of these names. Ends at `until`, m.
 */
export function moveOver(
  scene: Scene,
  wheels: readonly string[],
  from: number,
  until: number,
  pace: Pace,
  drivenRadius?: number,
): Pick<Passage, 'stations' | 'loads'> {
  const { engine, model, data } = scene;
  const geoms = wheels.map((name) => engine.mj_name2id(model, engine.mjtObj.mjOBJ_GEOM.value, name));
  let view = viewsOf(data);
  const passage: { stations: number[]; loads: number[][] } = { stations: [], loads: [] };
  const settle = Math.round(1 / pace.step);
  let next = from;
  engine.mj_forward(model, data);
  if (view.qpos.length === 0) view = viewsOf(data);
  const start = view.middle[3] as number;
  let last = start;
  for (let n = -settle; n * pace.step < (1.1 * (until - from)) / pace.speed + 1; n++) {
    // where the engine asked for more memory, arrays that look into the old one are empty
    if (view.qpos.length === 0) view = viewsOf(data);
    const { qpos, qvel, applied, ctrl, middle } = view;
    const on = Math.max(0, n) * pace.step * pace.speed;
    const speed = n > 0 ? pace.speed : 0;
    if (drivenRadius === undefined)
      applied[0] = pace.stiffness * (on - (qpos[0] as number)) + pace.damping * (speed - (qvel[0] as number));
    else {
      const now = middle[3] as number;
      const thrust = pace.stiffness * (start + on - now) + pace.damping * (speed - (now - last) / pace.step);
      last = now;
      ctrl.fill((-thrust * drivenRadius) / wheels.length);
    }
    engine.mj_step(model, data);
    if (view.qpos.length === 0) view = viewsOf(data);
    const station = from + (view.qpos[0] as number);
    if (n < 0 || station < next) continue;
    if (station > until) break;
    passage.stations.push(station);
    passage.loads.push(loadsOf(scene, geoms));
    next += pace.every;
  }
  return passage;
}

/** The engine's arrays, as looked into its memory now. */
function viewsOf(data: MjData): Record<'qpos' | 'qvel' | 'applied' | 'ctrl' | 'middle', Float64Array> {
  return {
    qpos: data.qpos,
    qvel: data.qvel,
    applied: data.qfrc_applied,
    ctrl: data.ctrl,
    middle: data.subtree_com,
  };
}

/** Vertical force of the ground on each of these geoms, N. */
function loadsOf({ engine, model, data }: Scene, geoms: readonly number[]): number[] {
  const loads = geoms.map(() => 0);
  const force = new engine.DoubleBuffer(6);
  const contacts = data.contact;
  for (let i = 0; i < data.ncon; i++) {
    const contact = contacts.get(i);
    if (!contact) continue;
    engine.mj_contactForce(model, data, i, force);
    const f = force.GetView() as Float64Array;
    // rows of the frame: the normal from the first geom to the second, then two tangents
    const frame = contact.frame as Float64Array;
    const up =
      (f[0] as number) * (frame[2] as number) +
      (f[1] as number) * (frame[5] as number) +
      (f[2] as number) * (frame[8] as number);
    const [first, second] = [geoms.indexOf(contact.geom1), geoms.indexOf(contact.geom2)];
    if (second >= 0) loads[second] = (loads[second] as number) + up;
    else if (first >= 0) loads[first] = (loads[first] as number) - up;
    contact.delete();
  }
  force.delete();
  return loads;
}
