import type { Problem } from '../../shared/problem.ts';
import { column, type Recording } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';
import { unitOf } from '../frames/units.ts';
import { appraise, compile, layGround } from '../index.ts';
import { exitOf } from './exit.ts';
import { eventsCsv, recordingCsv } from './files/csv.ts';
import type { OutFile } from './files/folder.ts';
import { jointsCsv, membersCsv } from './files/joints-csv.ts';
import type { Loaded } from './input/load.ts';
import { type LoadPicture, loadsSvg } from './picture/loads.ts';
import { restlessness } from './restless.ts';
import type { Outcome } from './scenario-verb.ts';
import type { Terminal } from './terminal.ts';
import { endSentence, quietText, reportText } from './text/report.ts';

/** What comes of a crossing, driven or crawled: report, text and files. */
export function runOutcome(
  loaded: Loaded,
  recording: Recording,
  warnings: readonly Problem[],
  terminal: Terminal,
): Outcome {
  const bare = appraise(loaded.scenario, recording);
  // Shares of a load that never settled mean little; the run itself is what it is. One that never began says why itself.
  const found = recording.frames === 0 ? [] : restlessness(recording.standing, 'warning');
  const report = { ...bare, problems: [...warnings, ...found, ...bare.problems] };
  return {
    exit: exitOf(report),
    report,
    text: reportText(report, terminal.style, terminal.width),
    quiet: quietText(report),
    found,
    files: runFiles(loaded, recording, report),
  };
}

/** What `--out` writes besides report.json. */
function runFiles(loaded: Loaded, recording: Recording, report: Report): OutFile[] {
  const mechanism = compile(loaded.scenario);
  return [
    { name: 'recording.csv', text: recordingCsv(recording, (head) => unitOf(mechanism, head)) },
    { name: 'events.csv', text: eventsCsv(recording.events) },
    { name: 'joints.csv', text: jointsCsv(report.joints ?? []) },
    { name: 'members.csv', text: membersCsv(mechanism, recording) },
    ...(recording.frames === 0
      ? []
      : [{ name: 'loads.svg', text: loadsSvg(loadPicture(loaded, recording, report)) }]),
  ];
}

/** The picture of a run. A vehicle that moves less than its smallest wheel's radius is shown over time. */
function loadPicture({ scenario, source }: Loaded, recording: Recording, report: Report): LoadPicture {
  const stations = column(recording, 'station');
  const way =
    stations.reduce((a, b) => Math.max(a, b), -Infinity) -
    stations.reduce((a, b) => Math.min(a, b), Infinity);
  const over = way < compile(scenario).size ? 'time' : 'station';
  const { x, z } = layGround(scenario, source);
  return {
    title: report.title,
    subtitle: `${report.vehicle}. ${endSentence(recording.end)}`,
    over,
    ground: { x, z },
    wheels: report.wheels.map((wheel) => {
      const index = recording.wheels.indexOf(wheel.id);
      return {
        name: wheel.id,
        axle: wheel.axle,
        count: wheel.count,
        standing: wheel.load,
        x: over === 'time' ? column(recording, 'time') : column(recording, 'wheelStation', index),
        load: column(recording, 'load', index),
        timeOff: wheel.timeOff ?? 0,
      };
    }),
    verdicts: report.verdicts,
  };
}
