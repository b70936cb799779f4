/*
 * Drive lines that cannot be, each with the path, what is wrong and what to do.
 * Seen red: every check taken out of its registry once.
 */
import { describe, expect, it } from 'vitest';
import { oneMotor } from '../driveline/document.ts';
import type { Loose } from '../small-truck.ts';
import { spoilt } from './told.ts';

/** What reading says of the small truck with one motor and one thing spoilt; `d` its drive line. */
const driven = (spoil: (d: Loose, truck: Loose) => void) =>
  spoilt((truck) => {
    truck.vehicle.driveline = oneMotor();
    delete truck.vehicle.drive.torquePerWheel;
    spoil(truck.vehicle.driveline, truck);
  });
const part = (d: Loose, name: string): Loose => d.parts.find((p: Loose) => p.name === name);
const at = 'vehicle.driveline.parts';

it('a drive line that makes sense reads without a word', () => {
  expect(driven(() => {})).toEqual(['reads']);
});

describe('a drive line that cannot be is an error', () => {
  it.each<[string, (d: Loose, truck: Loose) => void, string]>([
    [
      'a circle',
      (d) => {
        d.parts[1].from = 'front shaft';
      },
      `${at}[1].from: 'gearbox' turns itself in a circle (let one part of the circle begin at a motor)`,
    ],
    [
      'a part that nothing turns',
      (d) => {
        delete part(d, 'front shaft').from;
      },
      `${at}[2].from: is missing: nothing turns 'front shaft' (name the part that turns it)`,
    ],
    [
      'a source named twice on one shaft',
      (d) => {
        d.parts[1].from = ['motor', 'motor'];
      },
      `${at}[1].from: names 'motor' twice (name it once; equal motors are its \`count\`)`,
    ],
    [
      'a motor that something turns',
      (d) => {
        d.parts.push({ name: 'second', kind: 'motor', stallTorque: 1, noLoadSpeed: 10, from: 'gearbox' });
      },
      `${at}[6].from: 'second' is a source, and nothing turns a source (leave it out; motors on one shaft stand together in the \`from\` of the part that they turn)`,
    ],
    [
      'a rating of another sort',
      (d) => {
        d.parts[2].rating = '0.9 kg';
      },
      `${at}[2].rating: "0.9 kg" is a mass, a torque was wanted (write it like "1.2 N m")`,
    ],
    [
      'an unknown part',
      (d) => {
        d.parts[2].from = 'gearbx';
      },
      `${at}[2].from: no part of the drive line is called 'gearbx' (did you mean "gearbox"?)`,
    ],
    [
      'an unknown axle line',
      (d) => {
        d.parts[4].wheels = ['frnt'];
      },
      `${at}[4].wheels[0]: no axle line is called 'frnt' (did you mean "front"?)`,
    ],
    [
      'an unknown body',
      (d) => {
        d.parts[4].on = 'front-axl';
      },
      `${at}[4].on: no member with a body is called 'front-axl' (did you mean "front-axle"?)`,
    ],
    [
      'an unknown shaft of a joint',
      (d) => {
        d.parts[2] = { name: 'front shaft', kind: 'universal-joint', from: 'gearbox', shaft: 'rear shaf' };
      },
      `${at}[2].shaft: no shaft is called 'rear shaf' (shafts with ends: none)`,
    ],
    [
      'a joint on a shaft without ends',
      (d) => {
        d.parts[2] = { name: 'front shaft', kind: 'universal-joint', from: 'gearbox', shaft: 'rear shaft' };
      },
      `${at}[2].shaft: 'rear shaft' has no two ends in the drawing (give it \`ends\`)`,
    ],
    [
      'an unknown controller',
      (d) => {
        d.parts[0].controller = 'esc';
      },
      `${at}[0].controller: no controller is called 'esc' (known: none)`,
    ],
    [
      'a name given twice',
      (d) => {
        d.parts.push({ ...d.parts[3] });
      },
      `${at}[6].name: is 'rear shaft', as ${at}[3] is called already (give each its own name)`,
    ],
    [
      'an axle line turned twice',
      (d) => {
        d.parts[4].wheels = ['front', 'rear'];
      },
      `${at}[5].wheels[1]: 'rear' is turned by 'front final' already (let one part turn it; motors that share a shaft stand in the \`from\` of one part)`,
    ],
    [
      'a mass without a place',
      (d) => {
        d.parts[1].mass = '100 g';
      },
      `${at}[1].at: is missing, and the part has a mass (say where it sits, or leave its mass to a mass item)`,
    ],
    [
      'a driven line without a motor',
      (d, truck) => {
        d.parts[5].wheels = ['rear'];
        truck.vehicle.drive.driven = ['front', 'middle', 'rear'];
      },
      "vehicle.drive.driven[1]: no way leads from a motor to 'middle' (name it in the `wheels` of the part that turns it)",
    ],
    [
      'a wheel on a lengthwise shaft',
      (d) => {
        d.parts[4].mesh = 'spur';
      },
      `${at}[4].wheels: the shaft that turns 'front' lies lengthwise (a bevel or worm stage is missing, or the motor lies across: "axis": "across")`,
    ],
    [
      'motors on one shaft that do not fit together',
      (d) => {
        d.parts.push({ ...d.parts[0], name: 'second', noLoadSpeed: '12000 rpm' });
        d.parts[1].from = ['motor', 'second'];
      },
      `${at}[1].from: 'second' would turn it 33.3 % faster without load than 'motor' (choose ratios that bring sources on one shaft to one speed)`,
    ],
    [
      'shares that do not go with the outputs',
      (d) => {
        d.parts[1] = { name: 'gearbox', kind: 'differential', from: 'motor', shares: [0.3, 0.3, 0.4] };
      },
      `${at}[1].shares: has 3 shares for 2 outputs (give one for each output)`,
    ],
    [
      'shares that are not the whole',
      (d) => {
        d.parts[1] = { name: 'gearbox', kind: 'differential', from: 'motor', shares: [0.3, 0.3] };
      },
      `${at}[1].shares: make 60 % together (they must make 100 %)`,
    ],
    [
      'a differential locked that cannot be',
      (d) => {
        d.parts[1] = { name: 'gearbox', kind: 'differential', from: 'motor', locked: true };
      },
      `${at}[1].locked: is true, and it is not lockable`,
    ],
    [
      'zero teeth',
      (d) => {
        d.parts[4].teeth = [0, 30];
      },
      `${at}[4].teeth[0]: is 0, must be at least 1`,
    ],
    [
      'an efficiency over 1',
      (d) => {
        d.parts[1].efficiency = '105 %';
      },
      `${at}[1].efficiency: is 105 %, must be at most 1`,
    ],
    [
      'teeth and ratio',
      (d) => {
        d.parts[1].teeth = [10, 60];
      },
      `${at}[1].ratio: needs its teeth or its ratio, one of them`,
    ],
    [
      'a sun larger than its ring',
      (d) => {
        d.parts[1] = {
          name: 'gearbox',
          kind: 'reduction',
          mesh: 'planetary',
          from: 'motor',
          sun: 48,
          ring: 12,
        };
      },
      `${at}[1].ring: must have more teeth than the sun`,
    ],
    [
      'friction of a worm without a lead angle',
      (d) => {
        d.parts[1] = {
          name: 'gearbox',
          kind: 'reduction',
          mesh: 'worm',
          from: 'motor',
          ratio: 30,
          friction: 0.1,
        };
      },
      `${at}[1].friction: needs the lead angle of the worm beside it`,
    ],
    [
      'a gear that the gearbox lacks',
      (d) => {
        d.parts[1] = {
          name: 'gearbox',
          kind: 'gearbox',
          from: 'motor',
          gears: [{ name: 'low', ratio: 6 }],
          gear: 'high',
        };
      },
      `${at}[1].gear: no gear is called 'high', there are low`,
    ],
    [
      'more current without load than at standstill',
      (d) => {
        d.parts[0].noLoadCurrent = '30 A';
      },
      `${at}[0].noLoadCurrent: must be below the current at standstill`,
    ],
  ])('%s', (_name, spoil, says) => {
    expect(driven(spoil)).toContain(`error: ${says}`);
  });
});

describe('a doubtful drive line reads with a warning', () => {
  const jointed = (d: Loose, more: Loose) => {
    d.parts.splice(
      2,
      1,
      { name: 'joint', kind: 'universal-joint', from: 'gearbox', ...more },
      {
        name: 'front shaft',
        kind: 'shaft',
        from: 'joint',
        ends: [
          { on: 'chassis', x: '-80 mm', z: '50 mm' },
          { on: 'front-axle', x: 0, z: '50 mm' },
        ],
      },
    );
  };

  it.each<[string, (d: Loose, truck: Loose) => void, string]>([
    [
      'the older fields beside it',
      (_d, truck) => {
        truck.vehicle.drive.torquePerWheel = 1;
      },
      'vehicle.drive.torquePerWheel: is given beside a drive line, which decides it (leave it out)',
    ],
    [
      'a sharing beside it',
      (_d, truck) => {
        truck.vehicle.drive.sharing = 'open';
      },
      'vehicle.drive.sharing: is given beside a drive line, which decides it (leave it out)',
    ],
    [
      'a reaction beside it',
      (_d, truck) => {
        truck.vehicle.wheels[0].reaction = 'chassis';
      },
      'vehicle.wheels[0].reaction: is given beside a drive line, which decides it (leave it out)',
    ],
    [
      'a line that nothing turns',
      (d) => {
        d.parts[5].wheels = ['rear'];
      },
      `${at}: no way leads from a motor to 'middle', so it rolls freely (name it in the \`wheels\` of a part, or list the driven lines in drive.driven)`,
    ],
    [
      'a part that turns nothing',
      (d) => {
        d.parts.push({ name: 'stub', kind: 'shaft', from: 'gearbox' });
      },
      `${at}[6]: 'stub' turns nothing (name it in the \`from\` of a part, or give it wheels)`,
    ],
    [
      'a joint bent too far at full droop',
      (d) => jointed(d, { mostAngle: '10 deg' }),
      // 15 mm of travel over a shaft of 80 mm: atan(15/80) = 10.6°
      `${at}[2].mostAngle: 'joint' bends by 10.6° with 'front-axle' at its droop stop, and can take 10° (shorten the travel, lengthen the shaft, or tilt what holds the joint)`,
    ],
    [
      'a joint at right angles',
      (d) => {
        d.parts[2] = { name: 'front shaft', kind: 'universal-joint', from: 'gearbox', angle: '90 deg' };
      },
      `${at}[2].mostAngle: 'front shaft' bends by 90° as drawn, and can take 80°`,
    ],
    [
      'motors on one shaft a little apart',
      (d) => {
        d.parts.push({ ...d.parts[0], name: 'second', noLoadSpeed: '9450 rpm' });
        d.parts[1].from = ['motor', 'second'];
      },
      `${at}[1].from: 'second' would turn it 5 % faster without load than 'motor': it carries more than its share (choose ratios that bring sources on one shaft to one speed)`,
    ],
    [
      'a target speed that it does not reach',
      (_d, truck) => {
        truck.vehicle.drive.speed = '5 m/s';
        truck.run = { time: '60 s' };
      },
      'vehicle.drive.speed: is 5 m/s, and the drive line reaches 2.5',
    ],
    [
      'a motor that gives more than it takes',
      (d) => {
        d.parts[0].stallTorque = '400 N mm';
      },
      `${at}[0].stallTorque: with these figures the motor gives`,
    ],
  ])('%s', (_name, spoil, says) => {
    const lines = driven(spoil);
    expect(lines[0]).toBe('reads');
    expect(lines.join('\n')).toContain(`warning: ${says}`);
  });

  it('but not for a joint that can take it', () => {
    expect(driven((d) => jointed(d, { mostAngle: '11 deg' }))).toEqual(['reads']);
  });
});
