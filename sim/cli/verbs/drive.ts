import { column, type Recording } from '../../../shared/recording.ts';
import type { Report } from '../../../shared/report.ts';
import { appraise, compile, drive as driveOver, layGround } from '../../index.ts';
import { exitOf } from '../exit.ts';
import { eventsCsv, recordingCsv } from '../files/csv.ts';
import type { OutFile } from '../files/folder.ts';
import { unitOf } from '../files/units.ts';
import type { Loaded } from '../input/load.ts';
import { type LoadPicture, loadsSvg } from '../picture/loads.ts';
import { restlessness } from '../restless.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import type { Terminal } from '../terminal.ts';
import { figure } from '../text/figures.ts';
import { endSentence, quietText, reportText } from '../text/report.ts';

/** `axlewright drive`: drives the vehicle over its ground and holds the run against the criteria. */
export const drive = scenarioVerb({
  name: 'drive',
  mode: 'drive',
  summary: 'drive over the ground and hold the run against the criteria',
  examples: [
    ['axlewright drive corrie-6x6', 'a demo that comes with the program'],
    ['axlewright drive my-truck.json --out results', 'all results as files'],
    ["axlewright drive my-truck.json --set 'vehicle.drive.speed=0.3 m/s' --json", 'for other programs'],
  ],
  work(loaded, warnings, terminal) {
    const { scenario, source } = loaded;
    const recording = driveOver(scenario, { source, progress: showProgress(terminal) });
    const bare = appraise(scenario, recording);
    // Shares of a load that never settled mean little; the run itself is what it is.
    const found = restlessness(recording.standing, 'warning');
    const report = {
      ...bare,
      problems: [...warnings, ...found, ...bare.problems],
    };
    return {
      exit: exitOf(report),
      report,
      text: reportText(report, terminal.style, terminal.width),
      quiet: quietText(report),
      found,
      files: driveFiles(loaded, recording, report),
    };
  },
});

/** How far the run is, as one line: `driving  42 %  at 1.20 m, 3.4 s`. */
function showProgress(terminal: Terminal) {
  return (done: { readonly time: number; readonly station: number; readonly share: number }): void =>
    terminal.progress(
      `driving  ${Math.floor(100 * done.share)} %  at ${figure(done.station, 'm')}, ${figure(done.time, 's')}`,
    );
}

/** What `--out` writes besides report.json. */
function driveFiles(loaded: Loaded, recording: Recording, report: Report): OutFile[] {
  const mechanism = compile(loaded.scenario);
  return [
    { name: 'recording.csv', text: recordingCsv(recording, (head) => unitOf(mechanism, head)) },
    { name: 'events.csv', text: eventsCsv(recording.events) },
    { name: 'loads.svg', text: loadsSvg(loadPicture(loaded, recording, report)) },
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
