import type { Winch } from './winch.ts';

/** One layer of rope on the drum. */
export interface Layer {
  /** 1 on the bare drum. */
  readonly layer: number;
  /** Diameter on which its rope lies, to the middle of the rope, m. */
  readonly diameter: number;
  /** Turns side by side. */
  readonly turns: number;
  /** Rope in this layer when it is full, and in all layers up to it, m. */
  readonly length: number;
  readonly upTo: number;
}

/** Turns that stay on the drum, so that its rope end carries nothing. Source: US Army TM 9-2320-279-10-2, winch chapter. */
export const turnsKept = 5;

/** Layers of a drum at most, whatever the rope. */
const mostLayers = 2000;

/**
 * Layers that a drum can hold of its rope, until all of it is on or the flanges are full (flanges that are not known end
 * nothing). Layer n lies on D + (2n − 1)·d, all layers with as many turns as fit side by side: rope upon rope, not
 * nested. Source: sum over layers; the same as the handbook's (A + D)·A·B·π/d² (Machinery's Handbook, capacity of
 * drums, from memory). Empty when not even one turn fits.
 */
export function layersOf({ drum, rope }: Pick<Winch, 'drum' | 'rope'>): Layer[] {
  const turns = Math.floor(drum.width / rope.diameter + 1e-9);
  const layers: Layer[] = [];
  let upTo = 0;
  for (let n = 1; n <= mostLayers && turns > 0 && upTo < rope.length; n++) {
    const diameter = drum.core + (2 * n - 1) * rope.diameter;
    const outside = drum.core + 2 * n * rope.diameter;
    if (drum.flange !== undefined && outside > drum.flange * (1 + 1e-9)) break;
    const length = turns * Math.PI * diameter;
    upTo += length;
    layers.push({ layer: n, diameter, turns, length, upTo });
  }
  return layers;
}

/** Rope that the layers hold, m. */
export const capacityOf = (layers: readonly Layer[]): number => layers.at(-1)?.upTo ?? 0;

/** The layer that the rope leaves from while `left` m of it are on the drum. */
export function layerWith(layers: readonly Layer[], left: number): Layer | undefined {
  return layers.find(({ upTo }) => upTo >= left * (1 - 1e-12)) ?? layers.at(-1);
}

/** Rope that stays on the drum: `turnsKept` turns on the bare drum, m. */
export const ropeKept = ({ drum, rope }: Pick<Winch, 'drum' | 'rope'>): number =>
  turnsKept * Math.PI * (drum.core + rope.diameter);
