/** Text of a document with sixteen sprung axle lines on a measured road of two thousand points. All invented. */
export function largest(): string {
  const axles = Array.from({ length: 16 }, (_, i) => ({ i, x: -i * 0.8, name: `axle ${i + 1}` }));
  const points = Array.from({ length: 2000 }, (_, i) => ({
    station: Number((i * 0.02).toFixed(2)),
    height: Number((0.02 * Math.sin(i * 0.05)).toFixed(4)),
  }));
  return JSON.stringify({
    format: 'axlewright-scenario',
    version: 1,
    title: 'Sixteen axle lines on two thousand points',
    vehicle: {
      name: 'sixteen',
      masses: [{ name: 'frame', mass: '32 t', at: { x: -6, z: 1 }, inertia: 500000 }],
      members: axles.map(({ x, name }) => ({
        name,
        kind: 'guided-axle',
        at: { x, z: 0.4 },
        bump: '120 mm',
        droop: '120 mm',
      })),
      elements: axles.flatMap(({ i, name }) => [
        {
          name: `spring ${i + 1}`,
          kind: 'linear-spring',
          on: { member: name },
          count: 2,
          rate: '100 N/mm',
          preload: '9 kN',
        },
        {
          name: `damper ${i + 1}`,
          kind: 'damper',
          on: { member: name },
          count: 2,
          bump: '8 kN s/m',
          rebound: '8 kN s/m',
        },
      ]),
      wheels: axles.map(({ i, x, name }) => ({
        name: `wheels ${i + 1}`,
        on: name,
        at: { x, z: 0.4 },
        radius: '400 mm',
        massPerWheel: '100 kg',
        tyre: { stiffnessPerWheel: '500 N/mm' },
      })),
      drive: { torquePerWheel: '8 kN m', speed: '1.5 m/s', acceleration: '1 m/s^2' },
    },
    ground: [
      { kind: 'flat', length: '15 m' },
      { kind: 'table', points },
    ],
    criteria: [{ kind: 'wheel-load', least: '10 %' }],
  });
}
