import { jointReports } from '../../sim/joints/peaks.ts';
import { appraise, standReport } from '../../sim/report/appraise.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import { standingRemarks } from '../../sim/statics/remarks.ts';
import { standAt, standWords } from '../../sim/statics/stand.ts';
import { stillOf } from '../../sim/statics/standing-still.ts';
import { Study, type Vehicle } from '../../sim/studies/study.ts';
import type { LiveAnswer, LiveOrder } from './live-protocol.ts';

/** No files beside the document. */
const noFiles = { file: () => undefined };

type Sound = Extract<Vehicle, { ok: true }>;
type Came = Pick<Extract<LiveAnswer, { kind: 'solved' }>, 'recording' | 'report'> | { readonly why: string };

/** The vehicle on its own ground at its start. */
function standing({ scenario, mechanism, ground }: Sound): Came {
  const found = standAt(mechanism, ground, courseOf(scenario, ground).start);
  if (found.kind !== 'stands') return { why: `at its start ${standWords(found)}` };
  const problems = standingRemarks(mechanism, found.standing);
  const report = standReport(scenario, mechanism, found.standing, problems);
  const recording = stillOf(mechanism, ground, found);
  return { recording, report: { ...report, joints: jointReports(mechanism, recording) } };
}

function crossing({ scenario, mechanism, ground }: Sound, stations: number): Came {
  const { start, until } = courseOf(scenario, ground);
  const recording = crawlOver(mechanism, ground, { start, until, stations });
  const { frames, end } = recording;
  if (frames === 0) return { why: end.kind === 'stuck' ? end.cause : 'at its start the vehicle tips over' };
  return { recording, report: appraise(scenario, mechanism, recording) };
}

/** Answers orders about one document after the other; reads each of them once. */
class Desk {
  #study: Study | undefined;

  answer({ ticket, mode, document, settings, stations }: LiveOrder): LiveAnswer {
    const began = performance.now();
    if (document !== undefined) {
      const read = readScenario(document, noFiles);
      this.#study = read.ok ? new Study({ scenario: read.value }) : undefined;
      if (!read.ok) return { kind: 'refused', ticket, problems: read.problems };
    }
    const vehicle = this.#study?.vehicle(settings);
    if (vehicle === undefined) return { kind: 'failed', ticket, message: 'no document was read yet' };
    if (!vehicle.ok) return { kind: 'impossible', ticket, why: vehicle.why };
    const came = mode === 'stand' ? standing(vehicle) : crossing(vehicle, stations);
    if ('why' in came) return { kind: 'impossible', ticket, why: came.why };
    return { kind: 'solved', ticket, ...came, took: performance.now() - began };
  }
}

const desk = new Desk();

function answer(order: LiveOrder): LiveAnswer {
  try {
    return desk.answer(order);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { kind: 'failed', ticket: order.ticket, message };
  }
}

self.addEventListener('message', ({ data }: MessageEvent<LiveOrder>) => {
  const said = answer(data);
  const transfer = said.kind === 'solved' ? [said.recording.block.buffer as ArrayBuffer] : [];
  self.postMessage(said, { transfer });
});
