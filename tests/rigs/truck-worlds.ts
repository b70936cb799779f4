/*
 * Two of the shipped vehicles in the words of another engine (MJCF), written from their drawings and data and not from
 * our reading of their documents: lengths m, masses kg, angles rad.
 */
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { boxesOf, worldOf } from './other-engine.ts';

/** Ramp up, plateau, low step up, ramp down to a ledge: the vertices of the ground from `from` m on. */
export function course(height: number): Vec2[] {
  return [
    { x: -2, z: 0 },
    { x: 0.75, z: 0 },
    { x: 0.95, z: height },
    { x: 1.15, z: height },
    { x: 1.15, z: height + 0.006 },
    { x: 1.35, z: height + 0.006 },
    { x: 1.5, z: 0.01 },
    { x: 5, z: 0.01 },
  ];
}

const gravity = 9.80665;
const mass = (kg: number, x: number, z: number): string =>
  `<geom type="sphere" size="0.01" mass="${kg}" pos="${x} 0 ${z}" contype="0" conaffinity="0"/>`;
const root = (at: number): string =>
  `<body pos="${at} 0 0"><joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 0 1"/><joint type="hinge" axis="0 -1 0"/>`;

/** The six-wheeler: sprung front axle, two arms on torsion bars with housings on torque rods. Wheels roll freely. */
export function sixWheeler(step: number, at: number, ground: readonly Vec2[]): string {
  const wheel = (name: string) => `<geom name="${name}" type="sphere" size="0.055" mass="0.3" condim="1"/>`;
  // two steel bars of 2.5 mm and 96 mm per axle: G·π·d⁴/32/L each; two springs of 1.1 N/mm
  const bars = (2 * 79.3e9 * Math.PI * 0.0025 ** 4) / 32 / 0.096;
  const arm = (name: string, side: 1 | -1) => `
    <body pos="-0.33 0 0.077"><joint type="hinge" axis="0 ${-side} 0" stiffness="${bars}" springref="${-0.7 / bars}" damping="0.05"/>${mass(0.06, side * 0.033, -0.011)}
      <body pos="${side * 0.065} 0 -0.022"><joint type="hinge" axis="0 -1 0"/>${mass(0.19, 0, 0.003)}${wheel(name)}<site name="${name} housing" pos="0 0 0.032"/></body>
    </body>`;
  const vehicle = `${root(at)}
    ${mass(2.2, -0.17, 0.09)}${mass(0.6, -0.01, 0.15)}${mass(1.1, -0.27, 0.145)}${mass(0.35, -0.12, 0.085)}
    <site name="middle frame" pos="-0.326 0 0.107"/><site name="rear frame" pos="-0.334 0 0.107"/>
    <body pos="0 0 0.055"><joint type="slide" axis="0 0 1" stiffness="2200" springref="${-20 / 2200}" damping="20"/>${mass(0.35, 0, 0)}${wheel('front')}</body>
    ${arm('middle', 1)}${arm('rear', -1)}
  </body>`;
  const rod = (name: string) =>
    `<spatial name="${name}"><site site="${name} frame"/><site site="${name} housing"/></spatial>`;
  const more = `<tendon>${rod('middle')}${rod('rear')}</tendon><equality><tendon tendon1="middle"/><tendon tendon1="rear"/></equality>`;
  return worldOf(step, gravity, boxesOf(ground, 0), vehicle, more);
}

/** The eight-wheeler on two free bogie beams, each wheel driven by a motor in its beam. */
export function eightWheeler(step: number, at: number, ground: readonly Vec2[]): string {
  const wheel = (name: string, x: number) =>
    `<body pos="${x} 0 -0.008"><joint name="${name}" type="hinge" axis="0 -1 0"/><geom name="${name}" type="sphere" size="0.05" mass="0.24" condim="3" friction="2 0 0"/></body>`;
  const beam = (x: number, leading: string, trailing: string) =>
    `<body pos="${x} 0 0.058"><joint type="hinge" axis="0 -1 0" damping="0.005"/>${mass(0.56, 0, -0.006)}${wheel(leading, 0.055)}${wheel(trailing, -0.055)}</body>`;
  const vehicle = `${root(at)}
    ${mass(2.6, -0.2, 0.095)}${mass(0.5, 0.02, 0.14)}${mass(0.9, -0.27, 0.12)}${mass(0.4, -0.17, 0.085)}
    ${beam(-0.055, 'first', 'second')}${beam(-0.345, 'third', 'fourth')}
  </body>`;
  const motors = ['first', 'second', 'third', 'fourth'].map((name) => `<motor joint="${name}"/>`).join('');
  return worldOf(step, gravity, boxesOf(ground, 2), vehicle, `<actuator>${motors}</actuator>`);
}
