import { appraise, drive, loadScenario } from '../../sim/index.ts';
import { drawnOf } from './drawn.ts';
import { type Answer, buffersOf, type Order } from './protocol.ts';
import { telling } from './telling.ts';

/** Shortest time between two progress messages, ms: often enough to look steady, seldom enough to cost nothing. */
const PROGRESS_EVERY = 80;

const say = (answer: Answer): void => self.postMessage(answer, { transfer: buffersOf(answer) });

function run({ ticket, document, telling: wanted }: Order): Answer {
  const began = performance.now();
  const read = loadScenario(document);
  if (!read.ok) return { kind: 'refused', ticket, problems: read.problems };
  let last = began;
  const recording = drive(read.value, {
    progress: (progress) => {
      const now = performance.now();
      if (now - last < PROGRESS_EVERY) return;
      last = now;
      say({ kind: 'progress', ticket, progress });
    },
  });
  const report = appraise(read.value, recording);
  const told = wanted === true ? telling(drawnOf(read.value), recording, read.problems) : undefined;
  const took = performance.now() - began;
  return { kind: 'solved', ticket, recording, report, took, ...(told === undefined ? {} : { told }) };
}

self.addEventListener('message', ({ data }: MessageEvent<Order>) => {
  try {
    say(run(data));
  } catch (error) {
    say({
      kind: 'failed',
      ticket: data.ticket,
      message: error instanceof Error ? error.message : String(error),
    });
  }
});
