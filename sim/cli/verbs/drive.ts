import { drive as driveOver } from '../../index.ts';
import { runOutcome } from '../run.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import type { Terminal } from '../terminal.ts';
import { figure } from '../text/figures.ts';

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
    return runOutcome(loaded, recording, warnings, terminal);
  },
});

/** How far the run is, as one line: `driving  42 %  at 1.20 m, 3.4 s`. */
function showProgress(terminal: Terminal) {
  return (done: { readonly time: number; readonly station: number; readonly share: number }): void =>
    terminal.progress(
      `driving  ${Math.floor(100 * done.share)} %  at ${figure(done.station, 'm')}, ${figure(done.time, 's')}`,
    );
}
