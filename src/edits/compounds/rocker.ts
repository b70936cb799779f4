import { roundFigure } from '../figures.ts';
import { axleMass, type Compound, massOn, pointFrom, wheelLine } from './compound.ts';

/** Half of the way between the bogie's axles, in wheel radii. */
const HALF = 1.2;

/** Places along a rocker, in wheel radii from the middle of the outer hubs; `span`: front axle to middle of the bogie. */
function placesOf(span: number) {
  const front = (span + HALF) / 2;
  const bogie = front - span;
  // The pivot divides the rocker two to one, so that each axle line carries a third.
  return { front, bogie, pivot: bogie + span / 3 };
}

/** A rocker that carries an axle at its front end and a bogie at its rear end, `span` wheel radii between them. */
export const rockerOf = (span: number): Compound => ({
  id: 'rocker',
  title: 'Rocker with a bogie',
  says: 'A long beam with an axle line in front and a bogie behind: three axle lines carry alike, without springs.',
  axles: 3,
  reach: placesOf(span).front,
  centre: placesOf(span).pivot,
  make(berth) {
    const { label, radius, axleLoad, wheels } = berth;
    const { front, bogie, pivot } = placesOf(span);
    const [long, short] = [`${label}-rocker`, `${label}-bogie`];
    return {
      members: [
        {
          name: long,
          kind: 'bogie-beam',
          pivot: pointFrom(berth, pivot, 1.6),
          front: pointFrom(berth, front, 0),
          rear: pointFrom(berth, bogie, 0.7),
        },
        {
          name: short,
          kind: 'bogie-beam',
          on: long,
          pivot: pointFrom(berth, bogie, 0.7),
          front: pointFrom(berth, bogie + HALF, 0),
          rear: pointFrom(berth, bogie - HALF, 0),
          bump: '35 deg',
          droop: '35 deg',
        },
      ],
      elements: [
        {
          // They hold the body level against the rockers: five times weight times wheel radius per radian and bar.
          name: `${label} levelling bars`,
          kind: 'torsion-bar',
          on: { member: long },
          count: 2,
          rate: roundFigure(5 * 3 * axleLoad * radius, 'torsionStiffness'),
          damping: roundFigure(0.07 * 3 * axleLoad * radius, 'torsionDamping'),
        },
      ],
      wheels: [
        wheelLine(berth, wheels[0] ?? `${label} front`, long, front),
        wheelLine(berth, wheels[1] ?? `${label} middle`, short, bogie + HALF),
        wheelLine(berth, wheels[2] ?? `${label} rear`, short, bogie - HALF),
      ],
      masses: [
        massOn(berth, `${label} rockers`, long, axleMass(berth), [pivot, 1], 2 * radius),
        massOn(berth, `${label} beams`, short, 2 * axleMass(berth), [bogie, 0.4], HALF * radius),
      ],
    };
  },
});

/** The usual rocker: its wheels stand as close as they may. */
export const rocker = rockerOf(4.5);
