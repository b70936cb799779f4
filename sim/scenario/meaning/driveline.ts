import type { Problems } from '../../../shared/problem.ts';
import { formatShare } from '../../../shared/units.ts';
import { compileDriveline, inputsOf } from '../../driveline/compile.ts';
import type { Driveline, DrivePart } from '../../driveline/driveline.ts';
import type { DrivelineEntry } from '../../driveline/entry.ts';
import { freeSpeeds } from '../../driveline/shared-shafts.ts';
import type { EntryCheck, WholeCheck } from './check.ts';

const pathOf = ({ index }: DrivePart): string => `vehicle.driveline.parts[${index}]`;

/** The parts of a drive line fit together: names, circles, what turns what. */
export const drivelineFits: EntryCheck = ({ driveline, wheels }, tree, problems) => {
  if (driveline === undefined || wheels.some((wheel) => wheel === undefined)) return;
  compileDriveline(driveline, {
    wheels: wheels.map((wheel) => wheel?.name ?? ''),
    carriers: wheels.map((wheel) => wheel?.on ?? ''),
    bodyOf: tree.bodyOf,
    problems,
  });
  tellTwins(driveline, problems);
  tellTwice(driveline, problems);
  tellInputs(driveline, problems);
  tellPlaceless(driveline, problems);
};

function tellTwins({ parts, controllers }: DrivelineEntry, problems: Problems): void {
  for (const [list, entries] of Object.entries({ parts, controllers }))
    entries.forEach(({ name }, i) => {
      const first = entries.findIndex((other) => other.name === name);
      if (first < i)
        problems.error(
          `vehicle.driveline.${list}[${i}].name`,
          `is '${name}', as vehicle.driveline.${list}[${first}] is called already`,
          'give each its own name',
        );
    });
}

/** An axle line has one part that turns it. */
function tellTwice({ parts }: DrivelineEntry, problems: Problems): void {
  const seen = new Map<string, string>();
  parts.forEach((part, i) => {
    part.wheels.forEach((name, w) => {
      const first = seen.get(name);
      if (first === undefined) seen.set(name, part.name);
      else
        problems.error(
          `vehicle.driveline.parts[${i}].wheels[${w}]`,
          `'${name}' is turned by '${first}' already`,
          'let one part turn it; motors that share a shaft stand in the `from` of one part',
        );
    });
  });
}

/** Nothing turns a motor, and a part names each of those that turn it once. */
function tellInputs({ parts }: DrivelineEntry, problems: Problems): void {
  parts.forEach((part, i) => {
    const path = `vehicle.driveline.parts[${i}].from`;
    const inputs = inputsOf(part);
    const again = inputs.find((name, at) => inputs.indexOf(name) < at);
    if (again !== undefined)
      problems.error(path, `names '${again}' twice`, 'name it once; equal motors are its `count`');
    if (inputs.length > 0 && (part.kind === 'motor' || part.kind === 'engine'))
      problems.error(
        path,
        `'${part.name}' is a source, and nothing turns a source`,
        'leave it out; motors on one shaft stand together in the `from` of the part that they turn',
      );
  });
}

/** A mass is somewhere. */
function tellPlaceless({ parts }: DrivelineEntry, problems: Problems): void {
  parts.forEach((part, i) => {
    if (part.mass > 0 && part.at === undefined)
      problems.error(
        `vehicle.driveline.parts[${i}].at`,
        'is missing, and the part has a mass',
        'say where it sits, or leave its mass to a mass item',
      );
  });
}

/** A drive line decides what the older fields decide without it, and reaches the lines that are to be driven. */
export const drivelineDecides: WholeCheck = ({ scenario, mechanism }, problems) => {
  const { driveline } = mechanism;
  if (driveline === undefined) return;
  const { drive, wheels } = scenario.vehicle;
  const beside = (path: string) => {
    problems.warn(path, 'is given beside a drive line, which decides it', 'leave it out');
  };
  if (drive.torquePerWheel !== undefined) beside('vehicle.drive.torquePerWheel');
  if (drive.sharing !== 'locked') beside('vehicle.drive.sharing');
  wheels.forEach(({ reaction }, i) => {
    if (reaction !== undefined) beside(`vehicle.wheels[${i}].reaction`);
  });
  const reached = (name: string) => (driveline.lastPart[wheels.findIndex((w) => w.name === name)] ?? -1) >= 0;
  if (drive.driven !== 'all')
    drive.driven.forEach((name, i) => {
      if (!reached(name))
        problems.error(
          `vehicle.drive.driven[${i}]`,
          `no way leads from a motor to '${name}'`,
          'name it in the `wheels` of the part that turns it',
        );
    });
  else
    for (const { name } of wheels.filter((wheel) => !reached(wheel.name)))
      problems.warn(
        'vehicle.driveline.parts',
        `no way leads from a motor to '${name}', so it rolls freely`,
        'name it in the `wheels` of a part, or list the driven lines in drive.driven',
      );
};

/** Shafts lie as they have to, turn something, and are turned at one speed. */
export const drivelineTurns: WholeCheck = ({ mechanism }, problems) => {
  const { driveline } = mechanism;
  if (driveline === undefined) return;
  for (const part of driveline.parts) {
    tellLengthwise(part, mechanism.wheels, problems);
    if (part.outputs.length + part.wheels.length === 0 && part.law.winch !== true)
      problems.warn(
        pathOf(part),
        `'${part.name}' turns nothing`,
        'name it in the `from` of a part, or give it wheels',
      );
    tellShares(part, problems);
    tellExcess(part, driveline, problems);
  }
  tellSpeeds(driveline, problems);
};

function tellLengthwise(
  part: DrivePart,
  wheels: readonly { readonly name: string }[],
  problems: Problems,
): void {
  if (part.wheels.length === 0 || part.axisOut === 'across') return;
  const names = part.wheels.map((w) => `'${wheels[w]?.name}'`).join(', ');
  problems.error(
    `${pathOf(part)}.wheels`,
    `the shaft that turns ${names} lies lengthwise`,
    'a bevel or worm stage is missing, or the motor lies across: "axis": "across"',
  );
}

/** Shares of a differential go with its outputs and make up the whole. */
function tellShares(part: DrivePart, problems: Problems): void {
  const shares = part.law.split?.shares;
  if (shares === undefined) return;
  const path = `${pathOf(part)}.shares`;
  const outputs = part.outputs.length + part.wheels.length;
  const sum = shares.reduce((all, share) => all + share, 0);
  if (shares.length !== outputs)
    problems.error(path, `has ${shares.length} shares for ${outputs} outputs`, 'give one for each output');
  else if (Math.abs(sum - 1) > 1e-6)
    problems.error(path, `make ${formatShare(sum)} together`, 'they must make 100 %');
}

/** Figures of a motor that would give more than they take: torque per ampere above the voltage per speed. */
function tellExcess(part: DrivePart, { supply }: Driveline, problems: Problems): void {
  const { motor } = part.law;
  const volts = motor?.voltage ?? supply?.voltage;
  if (motor?.stallCurrent === undefined || volts === undefined || motor.curve !== undefined) return;
  const idle = motor.noLoadCurrent ?? 0;
  // ¼·T_s·ω₀ is its greatest power; electric power less heat at that point is ¼·U·I_s·(1 − I₀/I_s)²
  const most = (volts * (motor.stallCurrent - idle) ** 2) / (motor.stallCurrent * motor.noLoadSpeed);
  if (motor.stallTorque <= 1.1 * most) return;
  problems.warn(
    `${pathOf(part)}.stallTorque`,
    `with these figures the motor gives ${formatShare(motor.stallTorque / most)} of the power that its currents leave it`,
    'check torque, speed, current and voltage: they must belong together',
  );
}

/** Speeds without load of sources on one shaft, which must be about alike: they share the load by their lines. */
function tellSpeeds({ parts, supply }: Driveline, problems: Problems): void {
  const speeds = freeSpeeds(parts, supply);
  for (const part of parts.filter(({ inputs }) => inputs.length > 1)) {
    const at = part.inputs.map((p) => ({ name: parts[p]?.name ?? '', speed: speeds[p] as number }));
    const [slow, fast] = [
      at.reduce((a, b) => (b.speed < a.speed ? b : a)),
      at.reduce((a, b) => (b.speed > a.speed ? b : a)),
    ];
    const apart = fast.speed / slow.speed - 1;
    if (!(apart > 0.01)) continue;
    const says = `'${fast.name}' would turn it ${formatShare(apart)} faster without load than '${slow.name}'`;
    const hint = 'choose ratios that bring sources on one shaft to one speed';
    if (apart > 0.2) problems.error(`${pathOf(part)}.from`, says, hint);
    else problems.warn(`${pathOf(part)}.from`, `${says}: it carries more than its share`, hint);
  }
}
