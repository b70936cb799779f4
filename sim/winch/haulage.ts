import type { LedgerLine } from '../../shared/report.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Layer, layersOf, layerWith, ropeKept } from './drum.ts';
import type { WinchTask } from './fields.ts';
import { type Haul, Hauling } from './haul.ts';
import { gainOf } from './line.ts';
import { powerOf, type WinchPower } from './power.ts';
import { usesOf } from './uses.ts';
import type { Winch } from './winch.ts';

/** A haul with everything in the winch that it loads. */
export interface Haulage {
  readonly hauling: Hauling;
  readonly haul: Haul;
  /** Axle line in the hole that needs most; pull with all lines in such holes, N. */
  readonly line: number | undefined;
  readonly all: number | null;
  /** Pull of all lines on the vehicle and tension of the line on the drum, N; 0 without a balance. */
  readonly force: number;
  readonly gain: number;
  readonly tension: number;
  readonly power: WinchPower;
  readonly layers: readonly Layer[];
  /** Layer that it pulls from, rope that is out, m, and whether too few turns stay. */
  readonly place: { readonly layer: Layer | undefined; readonly out: number | null; readonly short: boolean };
  readonly drumTorque: number;
  readonly uses: readonly LedgerLine[];
}

/** Hauls the vehicle: the pull that its task takes, and what everything in the winch carries of it. */
export function haulageOf(mechanism: Mechanism, winch: Winch & { readonly task: WinchTask }): Haulage {
  const { task } = winch;
  const hauling = new Hauling(mechanism, winch, task);
  const { haul, line, all } = hardest(mechanism, hauling, task);
  const force = forceOf(haul);
  const gain = gainOf(task.lines, task.sheave);
  const tension = force / gain;
  const power = powerOf(winch, mechanism.driveline);
  const layers = layersOf(winch);
  const place = placeOf(winch, task, layers);
  const drumTorque = (tension * (place.layer?.diameter ?? 0)) / 2;
  const uses =
    haul.kind === 'hauled'
      ? usesOf(winch, power, { tension, drumTorque, force })
      : [unbalanced(winch, haul.kind)];
  return { hauling, haul, line, all, force, gain, tension, power, layers, place, drumTorque, uses };
}

/** The line of a haul without a balance: nothing is known of what it takes. */
function unbalanced({ name, index }: Winch, kind: 'tips' | 'none'): LedgerLine {
  return {
    sort: 'winch',
    of: `${name}: haul`,
    path: `vehicle.winches[${index}].task`,
    quantity: 'force',
    use: null,
    carries: 0,
    limit: null,
    unit: 'N',
    says:
      kind === 'tips'
        ? `pulled by '${name}' the vehicle tips over in its own rope`
        : `no balance was found while '${name}' pulls: its rope may lift the vehicle off its wheels`,
  };
}

/** The haul that needs the greatest pull: over all axle lines that may stand in the hole. */
function hardest(mechanism: Mechanism, hauling: Hauling, task: WinchTask) {
  if (!(task.hole > 0)) return { haul: hauling.needed(), line: undefined, all: null };
  const hauls = mechanism.wheels.map((_, line) => ({ line, haul: hauling.needed(line) }));
  const bad = hauls.find(({ haul }) => haul.kind !== 'hauled');
  const worst = hauls.reduce((most, one) => (forceOf(one.haul) > forceOf(most.haul) ? one : most));
  const all = hauling.needed(-1);
  return { ...(bad ?? worst), all: all.kind === 'hauled' ? all.force : null };
}

const forceOf = (haul: Haul): number => (haul.kind === 'hauled' ? haul.force : 0);

/** Where on the drum it pulls from. */
function placeOf(winch: Winch, task: WinchTask, layers: readonly Layer[]) {
  const { distance } = task.anchor;
  if (distance === undefined) return { layer: layers.at(-1), out: null, short: false };
  const height = task.anchor.height === undefined ? 0 : task.anchor.height - winch.at.z;
  const out = task.lines * Math.hypot(distance, height);
  const left = winch.rope.length - out;
  return { layer: layerWith(layers, Math.max(0, left)), out, short: left < ropeKept(winch) };
}
