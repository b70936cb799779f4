/** Leaves of a document that tests change. */
export type Json = Record<string, unknown>;

/** One axle line of the made-up cart. */
const wheel = (name: string, x: string): Json => ({
  name,
  at: { x, z: '50 mm' },
  radius: '50 mm',
  massPerWheel: '0.1 kg',
  tyre: { stiffnessPerWheel: '4 N/mm' },
});

/**
 * A made-up cart without suspension on 0.6 m of ground: the smallest scenario that can be driven. Its mass is
 * 1.6 + 4 · 0.1 = 2 kg, in the middle between its axles.
 */
export function cart(changes: Json = {}): Json {
  return {
    format: 'axlewright-scenario',
    version: 1,
    title: 'Made-up cart on level ground',
    vehicle: {
      name: 'Made-up cart',
      masses: [{ name: 'plank', mass: '1.6 kg', at: { x: '-100 mm', z: '60 mm' } }],
      wheels: [wheel('front', '0 mm'), wheel('rear', '-200 mm')],
      drive: { torquePerWheel: '0.2 N m', speed: '0.4 m/s', acceleration: '2 m/s^2' },
    },
    ground: [{ kind: 'flat', length: '0.6 m' }],
    criteria: [{ kind: 'reaches' }, { kind: 'wheel-load', least: '50 %' }],
    ...changes,
  };
}
