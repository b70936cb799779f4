import { describe, expect, it } from 'vitest';
import { bogiesOf } from '../../../sim/report/bogies.ts';
import { bodyOf, rodOf, truck, wheelOf } from './fixture.ts';
import { linearSpring } from './spring.ts';

const named = (list: ReturnType<typeof bogiesOf>) => list.map((b) => [b.name, b.wheels]);

describe('bogies', () => {
  it('are the wheels on one beam', () => {
    expect(bogiesOf(truck())).toEqual([{ name: 'rear beam', members: ['rear beam'], wheels: [1, 2] }]);
  });

  it('are the wheels on arms that hang on one rocker, and the rocker is a bogie around its beam', () => {
    const bodies = [bodyOf('chassis', -1), bodyOf('rocker', 0), bodyOf('front arm', 1), bodyOf('beam', 1)];
    const wheels = [wheelOf('front', 1, 2, 0.2), wheelOf('middle', 2, 3, 0), wheelOf('rear', 3, 3, -0.2)];
    expect(named(bogiesOf(truck({ bodies, wheels, members: [] })))).toEqual([
      ['beam', [1, 2]],
      ['rocker', [0, 1, 2]],
    ]);
  });

  it('name the innermost of two members that carry the same wheels', () => {
    const bodies = [bodyOf('chassis', -1), bodyOf('link', 0), bodyOf('beam', 1)];
    const wheels = [wheelOf('front', 1, 2, 0.1), wheelOf('rear', 2, 2, -0.1)];
    expect(named(bogiesOf(truck({ bodies, wheels })))).toEqual([['beam', [0, 1]]]);
  });

  const arms = [bodyOf('chassis', -1), bodyOf('arm 1', 0), bodyOf('arm 2', 0), bodyOf('housing 2', 2)];
  const onArms = [wheelOf('middle', 1, 1, 0), wheelOf('rear', 2, 3, -0.2)];

  it('are not made by the chassis: two arms on their own are no bogie, nor are rods to the chassis one', () => {
    expect(bogiesOf(truck({ bodies: arms, wheels: onArms }))).toEqual([]);
    const toChassis = [rodOf('torque rod 1', 0, 1), rodOf('torque rod 2', 0, 3)];
    expect(bogiesOf(truck({ bodies: arms, wheels: onArms, rods: toChassis }))).toEqual([]);
    expect(
      bogiesOf(
        truck({ bodies: arms, wheels: onArms, rods: [rodOf('torque rod', 0, 3), rodOf('other', 1, 0)] }),
      ),
    ).toEqual([]);
  });

  it('are made of arms that a rod joins', () => {
    const joined = bogiesOf(truck({ bodies: arms, wheels: onArms, rods: [rodOf('balance rod', 1, 3)] }));
    expect(joined).toEqual([{ name: 'arm 1 and arm 2', members: ['arm 1', 'arm 2'], wheels: [0, 1] }]);
  });

  it('are made of arms that a spring between two points joins', () => {
    const coordinate = {
      kind: 'span',
      a: { body: 1, at: { x: 0, z: 0 } },
      b: { body: 2, at: { x: 1, z: 0 } },
      drawn: 1,
    } as const;
    const elements = [{ name: 'spring', kind: 'spring', coordinate, count: 1, law: linearSpring }];
    expect(named(bogiesOf(truck({ bodies: arms, wheels: onArms, elements })))).toEqual([
      ['arm 1 and arm 2', [0, 1]],
    ]);
  });

  it('are made of arms that swing about one pivot, not of arms on pivots of their own', () => {
    const hinged = (rearPivot: number) => [
      {
        name: 'arm 1',
        kind: 'hinge' as const,
        parent: 0,
        child: 1,
        anchor: { x: -0.1, z: 0.08 },
        axis: { x: 0, z: 1 },
        sign: 1 as const,
      },
      {
        name: 'arm 2',
        kind: 'hinge' as const,
        parent: 0,
        child: 2,
        anchor: { x: rearPivot, z: 0.08 },
        axis: { x: 0, z: 1 },
        sign: -1 as const,
      },
    ];
    // Wheel radius 55 mm: a quarter of it is 13.75 mm.
    const withPivot = (x: number) =>
      named(bogiesOf(truck({ bodies: arms, wheels: onArms, joints: hinged(x) })));
    expect(withPivot(-0.1)).toEqual([['arm 1 and arm 2', [0, 1]]]);
    expect(withPivot(-0.108)).toEqual([['arm 1 and arm 2', [0, 1]]]);
    expect(withPivot(-0.12)).toEqual([]);
  });

  it('come front before rear, small before large', () => {
    const bodies = [
      bodyOf('chassis', -1),
      bodyOf('front beam', 0),
      bodyOf('rocker', 0),
      bodyOf('rear beam', 2),
    ];
    const wheels = [
      wheelOf('4', 4, 3, -0.2),
      wheelOf('3', 3, 2, -0.1),
      wheelOf('2', 2, 1, 0),
      wheelOf('1', 1, 1, 0.1),
      wheelOf('5', 5, 3, -0.3),
    ];
    const names = bogiesOf(truck({ bodies, wheels, members: [] })).map((b) => b.name);
    expect(names).toEqual(['front beam', 'rear beam', 'rocker']);
  });
});
