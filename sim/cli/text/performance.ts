import type { Bend } from '../../driveline/bends.ts';
import { type Duty, usedShare } from '../../driveline/duty.ts';
import type { SourceFigures } from '../../driveline/performance.ts';
import type { WindUp } from '../../driveline/wind-up.ts';
import type { PerformanceReport } from '../performance-report.ts';
import { clean } from './clean.ts';
import { column, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { table, wrap } from './table.ts';

/** What a person sees of a drive line: speeds and grades, the pull, motors at standstill, joints, what was assumed. */
export function performanceText(report: PerformanceReport, style: Style, width: number): string {
  const { crossing } = report;
  const blocks = [
    headLines(report, style, width),
    [...speedLines(report, style), ...dutyLines('On the level', report.level, style, width)],
    gradeLines(report, style),
    pullLines(report, style),
    sourceLines(report.sources, style),
    jointLines('joint as it stands', report.joints, style),
    crossing === undefined ? [] : dutyLines("Over its ground's crossing", crossing.duty, style, width),
    crossing === undefined ? [] : jointLines('joint at its worst', crossing.joints, style),
    crossing === undefined ? [] : windUpLines(crossing.windUp, style, width),
    assumedLines(report, width).map(style.faint),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

function speedLines({ topSpeed, steepest, atTarget }: PerformanceReport, style: Style): string[] {
  if (topSpeed === null) return [style.bad('It does not move on the level.')];
  const steep =
    steepest === null
      ? []
      : [
          `Steepest grade of the drive: ${style.strong(gradeText(steepest.angle))} at ${figure(steepest.speed, 'm/s')}; grip may end before it`,
        ];
  const target =
    atTarget === null
      ? ['The target speed is not reached on the level.']
      : [
          `At the target speed of ${figure(atTarget.speed, 'm/s')} it climbs ${figure(atTarget.angle, 'rad')}`,
        ];
  return [`Top speed on the level: ${style.strong(figure(topSpeed, 'm/s'))}`, ...steep, ...target];
}

/** A grade in degrees, or that its pull is no less than the weight. */
const gradeText = (angle: number): string =>
  angle >= Math.PI / 2 ? 'any grade (it pulls more than it weighs)' : figure(angle, 'rad');

function dutyLines(where: string, duty: Duty | null, style: Style, width: number): string[] {
  if (duty === null) return [];
  const { speed, power, current, voltage, efficiency, time, distance } = duty;
  if (power === null || current === null || voltage === null)
    return [style.faint(`${where}: power and running time need a battery, and currents of every motor`)];
  const electric = `${figure(power, 'W')}, ${figure(current, 'A')} at ${figure(voltage, 'V')}`;
  const reaches = efficiency === null ? '' : `, ${figure(efficiency, '1')} of it at the wheels`;
  const lasts =
    time === null || distance === null
      ? ''
      : `; the battery lasts ${duration(time)} or ${figure(distance, 'm')}, to ${figure(usedShare, '1')} of its charge`;
  return wrap(`${where} at ${figure(speed, 'm/s')}: ${electric}${reaches}${lasts}`, width);
}

/** `35 s`, `4 min`, `2 h 10 min`. */
function duration(seconds: number): string {
  if (seconds < 100) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  return minutes < 100 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

function gradeLines({ grades }: PerformanceReport, style: Style): string[] {
  const [head = '', ...rows] = table(
    [
      { head: 'grade', align: 'right' },
      { head: '', align: 'right' },
      { head: 'speed', align: 'right' },
    ],
    grades.map(({ angle, speed }) => [
      `${Math.round(100 * Math.tan(angle))} %`,
      `${((angle * 180) / Math.PI).toFixed(1)}°`,
      speed === null ? 'does not climb' : figure(speed, 'm/s'),
    ]),
  );
  return [style.faint(head), ...rows];
}

/** Every sixth point of the line: eleven rows from standstill to the end. */
function pullLines({ line }: PerformanceReport, style: Style): string[] {
  const shown = line.filter((_, i) => i % 6 === 0);
  const cells = (pick: (point: (typeof line)[number]) => number | null, unit: string) => {
    const values = shown.map(pick);
    const texts = column(
      values.map((value) => value ?? 0),
      unit,
    );
    return values.map((value, i) => (value === null ? '–' : (texts[i] as string)));
  };
  const columns = [
    ['full throttle at', cells(({ speed }) => speed, 'm/s')],
    ['pull', cells(({ thrust }) => thrust, 'N')],
    ['at the wheels', cells(({ power }) => power, 'W')],
    ['battery', cells(({ current }) => current, 'A')],
    ['', cells(({ voltage }) => voltage, 'V')],
    ['efficiency', cells(({ efficiency }) => efficiency, '1')],
  ] as const;
  const [head = '', ...rows] = table(
    columns.map(([name]) => ({ head: name, align: 'right' })),
    shown.map((_, i) => columns.map(([, texts]) => texts[i] as string)),
  );
  return [style.faint(head), ...rows];
}

function sourceLines(sources: readonly SourceFigures[], style: Style): string[] {
  const rows = sources.flatMap(({ of, stall, map }) =>
    stall === null
      ? []
      : [
          [
            clean(of),
            figure(stall.torque, 'N·m'),
            stall.current === null ? '–' : figure(stall.current, 'A'),
            stall.heat === null ? '–' : figure(stall.heat, 'W'),
            stall.lasts === 'unknown' ? 'not known' : stall.time === null ? 'for ever' : duration(stall.time),
            map === null ? '–' : figure(map.best.efficiency, '1'),
          ],
        ],
  );
  if (rows.length === 0) return [];
  const heads = ['held at full throttle', 'torque', 'current', 'heat', 'lasts', 'best efficiency'];
  const [head = '', ...lines] = table(
    heads.map((name, i) => ({ head: name, align: i === 0 ? 'left' : 'right' })),
    rows,
  );
  return [style.faint(head), ...lines];
}

function jointLines(title: string, joints: readonly Bend[], style: Style): string[] {
  if (joints.length === 0) return [];
  const rows = joints.map(({ of, angle, mostAngle, speedRatio, moment }) => [
    clean(of),
    angle === null ? 'not known' : figure(angle, 'rad'),
    mostAngle === null ? '–' : figure(mostAngle, 'rad'),
    speedRatio === null ? '–' : `± ${figure((speedRatio.most - speedRatio.least) / 2, '1')}`,
    moment === undefined ? '' : figure(moment.station, 'm'),
  ]);
  const placed = joints.some(({ moment }) => moment !== undefined);
  const heads = [title, 'angle', 'it can take', 'speed ripple', ...(placed ? ['at station'] : [])];
  const [head = '', ...lines] = table(
    heads.map((name, i) => ({ head: name, align: i === 0 ? 'left' : 'right' })),
    rows,
  );
  return [
    style.faint(head),
    ...lines.map((line, i) => {
      const { angle, mostAngle } = joints[i] as Bend;
      return angle !== null && mostAngle !== null && angle > mostAngle ? style.bad(line) : line;
    }),
  ];
}

function windUpLines(groups: readonly WindUp[], style: Style, width: number): string[] {
  return groups.flatMap(({ lines, parts }) => {
    const worst = parts[0];
    const [head = '', ...rows] = table(
      ['winds up', 'torque', 'bounded by', 'at station'].map((name, i) => ({
        head: name,
        align: i === 0 ? 'left' : 'right',
      })),
      lines.map(({ of, torque, slips, moment }) => [
        clean(of),
        figure(torque, 'N·m'),
        slips ? 'grip' : 'its shafts and tyres',
        figure(moment.station, 'm'),
      ]),
    );
    const use = worst?.use === null || worst === undefined ? '' : `, ${figure(worst.use, '1')} of its rating`;
    const says =
      worst === undefined
        ? []
        : wrap(
            `Between them ${clean(worst.of)} carries most: ${figure(worst.torque, 'N·m')}${use}, at station ${figure(worst.moment.station, 'm')}`,
            width,
          );
    return [style.faint(head), ...rows, ...says];
  });
}

function assumedLines({ assumed }: PerformanceReport, width: number): string[] {
  if (assumed.length === 0) return [];
  const list = [...new Set(assumed.map(({ says }) => says))].map((says) => {
    const of = assumed.filter((each) => each.says === says).map((each) => clean(each.of));
    return `${says} (${of.join(', ')})`;
  });
  return wrap(`Taken as typical, test yours: ${list.join('; ')}.`, width);
}
