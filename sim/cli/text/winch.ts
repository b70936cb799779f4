import type { WinchStudy } from '../../winch/study.ts';
import type { WinchReport } from '../rig-report.ts';
import { clean } from './clean.ts';
import { column, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';
import { notes, shareLines, shareVerdict } from './uses.ts';

/** What a person sees of the winches: the haul, what gives way first, the wheels, the layers, the cautions. */
export function winchText(report: WinchReport, style: Style, width: number): string {
  const blocks = [
    headLines(report, style, width),
    ...report.winches.flatMap((study) => winchBlocks(study, style, width)),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** What `--quiet` leaves: a line for each thing that fails. */
export function quietWinch({ winches }: WinchReport): string {
  return winches
    .filter(({ pass }) => !pass)
    .flatMap((study) => [
      ...(study.kind === 'hauled' ? [] : [`${study.name}: ${fallenWords(study.kind)}`]),
      ...(study.short ? [`${study.name}: ${shortWords(study)}`] : []),
      ...study.uses.filter(({ use }) => use !== null && use > 1).map(({ says }) => says),
    ])
    .map((line) => `${clean(line)}\n`)
    .join('');
}

const fallenWords = (kind: WinchStudy['kind']): string =>
  kind === 'tips'
    ? 'the vehicle tips over in its own rope'
    : 'no balance was found: the rope may lift it off its wheels';

const shortWords = ({ out }: WinchStudy): string =>
  `the rope is too short: ${figure(out ?? 0, 'm')} would be out, and turns have to stay on the drum`;

function winchBlocks(study: WinchStudy, style: Style, width: number): string[][] {
  const title = style.strong(clean(study.name));
  if (study.kind !== 'hauled')
    return [
      [title, ...wrap(`${taskWords(study)}: ${fallenWords(study.kind)}.`, width).map(style.bad)],
      notes('Caution:', study.cautions, width),
    ];
  return [
    [
      title,
      ...wrap(haulWords(study), width),
      ...(study.short ? wrap(`${shortWords(study)}.`, width).map(style.bad) : []),
    ],
    shareLines(study.uses, style),
    shareVerdict(study.uses, style, width),
    wheelLines(study, style, width),
    layerLines(study, style),
    liftLines(study, width),
    notes('Remarks:', study.remarks, width),
    notes('Caution:', study.cautions, width),
  ];
}

function taskWords({ task, hole, gain }: WinchStudy): string {
  const { slope, lines, sheave, towards, rolling } = task;
  const ground = [
    slope === 0 ? 'On the level' : `On a slope of ${figure(slope, 'rad')}`,
    rolling === undefined ? '' : `, rolling resistance ${figure(rolling, '1')}`,
    hole === null ? '' : `, '${hole.line}' in a hole ${figure(task.hole, 'm')} deep`,
  ].join('');
  const rope =
    lines === 1
      ? 'one line'
      : `${lines} lines over sheaves of ${figure(sheave, '1')} (${gain.toFixed(2)} times the pull)`;
  return `${ground}, anchor to the ${towards}, ${rope}`;
}

function haulWords(study: WinchStudy): string {
  const { force, tension, rise, layer, layerKnown, drumTorque, current, speed, withDrive, hole, anchor } =
    study;
  const place = layerKnown
    ? `layer ${layer}`
    : `layer ${layer} (the last: the anchor's distance is not known)`;
  const parts = [
    `${taskWords(study)}: a pull of ${figure(force, 'N')} moves it`,
    Math.abs(rise) > 1e-6
      ? `, ${figure(Math.abs(rise), 'rad')} ${rise > 0 ? 'upwards' : 'downwards'} against the ground`
      : '',
    `. Rope ${figure(tension, 'N')} at the drum, from ${place}, with ${figure(drumTorque, 'N·m')} at the drum`,
    current === null ? '' : ` and ${figure(current, 'A')}`,
    `; anchor ${figure(anchor, 'N')}.`,
    speed === null ? '' : speed > 0 ? ` It moves at ${figure(speed, 'm/s')}.` : ' The motor stalls.',
    hole?.all ? ` With every axle line in such a hole it takes ${figure(hole.all, 'N')}.` : '',
    withDrive === null
      ? ''
      : withDrive === 0
        ? ' Its own wheels could do it without the rope, if they find their grip.'
        : ` With its own wheels driving, ${figure(withDrive, 'N')} are enough.`,
  ];
  return parts.join('');
}

function wheelLines({ wheels }: WinchStudy, style: Style, width: number): string[] {
  const heads: Column[] = [
    { head: 'axle', align: 'left' },
    { head: 'parked there', align: 'right' },
    { head: 'while pulled', align: 'right' },
    { head: '', align: 'left' },
  ];
  const parked = column(
    wheels.map((w) => w.parked ?? 0),
    'N',
  );
  const loads = column(
    wheels.map((w) => w.load),
    'N',
  );
  const rows = wheels.map((w, i) => [
    clean(`${w.axle} ${w.name}`),
    w.parked === null ? '–' : (parked[i] ?? ''),
    loads[i] ?? '',
    w.off ? 'off the ground' : '',
  ]);
  const [head = '', ...lines] = table(heads, rows);
  const off = wheels.filter((w) => w.off).map((w) => `'${w.name}'`);
  return [
    style.faint(head),
    ...lines.map((line, i) => (wheels[i]?.off ? style.bad(line) : line)),
    ...(off.length === 0
      ? []
      : wrap(
          clean(`The rope lifts ${off.join(', ')} off the ground: no steering there, and it may swing.`),
          width,
        )),
  ];
}

function layerLines({ layers, layer, layerKnown }: WinchStudy, style: Style): string[] {
  const heads: Column[] = ['layer', 'on', 'rope up to', 'most pull', 'rope speed'].map((head) => ({
    head,
    align: 'right',
  }));
  const on = column(
    layers.map((l) => l.diameter),
    'm',
  );
  const upTo = column(
    layers.map((l) => l.upTo),
    'm',
  );
  const pulls = column(
    layers.map((l) => l.pull ?? 0),
    'N',
  );
  const speeds = column(
    layers.map((l) => l.speed ?? 0),
    'm/s',
  );
  const rows = layers.map((l, i) => [
    `${l.layer}${l.layer === layer && layerKnown ? ' ◂' : ''}`,
    on[i] ?? '',
    upTo[i] ?? '',
    l.pull === null ? '–' : (pulls[i] ?? ''),
    l.speed === null ? '–' : (speeds[i] ?? ''),
  ]);
  const shown = rows.length > 12 ? [...rows.slice(0, 6), ['…'], ...rows.slice(-5)] : rows;
  const [head = '', ...lines] = table(heads, shown);
  return [style.faint(head), ...lines];
}

function liftLines({ ownEnd, hung }: WinchStudy, width: number): string[] {
  const can = { true: 'it can', false: 'it cannot', null: 'whether it can is not known' };
  const words = (lift: WinchStudy['hung']) =>
    `${figure(lift.force, 'N')}, ${figure(lift.tension, 'N')} in the rope; ${can[`${lift.can}`]}`;
  return [
    ...(ownEnd === null
      ? []
      : wrap(
          clean(`On the level, rope straight up: '${ownEnd.line}' leaves the ground at ${words(ownEnd)}.`),
          width,
        )),
    ...wrap(`Hanging from its own rope: ${words(hung)}.`, width),
  ];
}
