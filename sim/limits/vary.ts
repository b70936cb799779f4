import { type Lump, together } from '../mechanism/masses.ts';
import type { Body, Mechanism } from '../mechanism/mechanism.ts';

/** The vehicle on ground of another grip: the same coefficient of friction for every tyre. */
export function withGrip(mechanism: Mechanism, grip: number): Mechanism {
  return { ...mechanism, wheels: mechanism.wheels.map((w) => ({ ...w, tyre: { ...w.tyre, grip } })) };
}

/**
 * The vehicle with all its mass items `factor` times as heavy and its wheels as they are. Springs, preloads, stops and
 * tyres stay: this is another load, not another vehicle.
 */
export function withItems(mechanism: Mechanism, factor: number): Mechanism {
  const bodies = mechanism.bodies.map((body, index) => scaled(body, index, mechanism, factor));
  const whole = together(bodies.map((b) => ({ mass: b.mass, at: b.centre, inertia: b.inertia })));
  return { ...mechanism, bodies, mass: whole.mass, cg: whole.at };
}

function scaled(body: Body, index: number, { wheels }: Mechanism, factor: number): Body {
  const hubs = wheels
    .filter((w) => w.body === index)
    .map((w): Lump => ({ mass: w.mass, at: w.hub, inertia: 0 }));
  const items = without({ mass: body.mass, at: body.centre, inertia: body.inertia }, together(hubs));
  const { mass, at, inertia } = together([
    { mass: factor * items.mass, at: items.at, inertia: factor * items.inertia },
    ...hubs,
  ]);
  return { ...body, mass, centre: at, inertia: Math.max(inertia, body.inertia * Math.min(1, factor)) };
}

/** What is left of a lump when a part of it is taken out (parallel-axis theorem backwards); never less than nothing. */
function without(whole: Lump, part: Lump): Lump {
  const mass = whole.mass - part.mass;
  if (!(mass > 1e-9 * whole.mass)) return { mass: 0, at: whole.at, inertia: 0 };
  const at = {
    x: (whole.mass * whole.at.x - part.mass * part.at.x) / mass,
    z: (whole.mass * whole.at.z - part.mass * part.at.z) / mass,
  };
  const off = (lump: Lump) =>
    lump.mass * ((lump.at.x - whole.at.x) ** 2 + (lump.at.z - whole.at.z) ** 2) + lump.inertia;
  return { mass, at, inertia: Math.max(0, whole.inertia - off(part) - off({ mass, at, inertia: 0 })) };
}
