/* A four-wheeled full-size truck on stiff tyres with a winch in front: the figures of a textbook can be read off it. */
import { loadScenario, type Mechanism } from '../../sim/index.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { plainTask, type WinchTask } from '../../sim/winch/fields.ts';
import type { Winch } from '../../sim/winch/winch.ts';
import { documentOf, type Rig } from './vehicle.ts';

/** Hubs 4 m apart, centre of gravity 1.8 m before the rear one and 1.5 m up. */
export const truck: Rig = {
  mass: 24_000,
  cg: { x: 1.8, z: 1.5 },
  axles: [
    { name: 'front', at: { x: 4, z: 0.5 }, radius: 0.5, mass: 100, stiffness: 1e9, grip: 0.8, rolling: 0.02 },
    { name: 'rear', at: { x: 0, z: 0.5 }, radius: 0.5, mass: 100, stiffness: 1e9, grip: 0.8, rolling: 0.02 },
  ],
};

/** A winch that is up to it, as a document has it. */
export const winchEntry = {
  name: 'front winch',
  at: { x: 5, z: 0.5 },
  rope: { length: 50, diameter: 0.02, strength: 400e3, kind: 'synthetic' },
  drum: { core: 0.3, width: 0.6, flange: 0.7 },
  reduction: { ratio: 200, efficiency: 0.6, rating: 40e3 },
  motor: { stallTorque: 200, noLoadSpeed: 300, stallCurrent: 400, noLoadCurrent: 10, voltage: 24 },
  brake: 40e3,
};

/** The truck with a winch, read as a document is. @throws Error with the problems when it cannot be read */
export function winched(rig: Rig = truck, changes: object = {}): { mechanism: Mechanism; winch: Winch } {
  const document = documentOf(rig);
  const winches = [{ ...winchEntry, ...changes }];
  const read = loadScenario({ ...document, vehicle: { ...document.vehicle, winches } });
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path} ${p.message}`).join('; '));
  const mechanism = compile(read.value);
  return { mechanism, winch: mechanism.winches?.[0] as Winch };
}

export const task = (changes: Partial<WinchTask> = {}): WinchTask => ({ ...plainTask, ...changes });
