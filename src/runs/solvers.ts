import type { LiveOutcome, LiveSolver } from '../workers/live.ts';
import type { Progress } from '../workers/protocol.ts';
import type { Outcome } from '../workers/solver.ts';
import type { HeadStart } from './headstart.ts';
import type { Mode } from './mode.ts';

/** What the desk understands: a vehicle that cannot be, or cannot stand, is told as a failure with its reason. */
function plain(outcome: LiveOutcome): Outcome {
  return outcome.kind === 'impossible'
    ? { kind: 'failed', ticket: outcome.ticket, message: outcome.why }
    : outcome;
}

/** Has a document solved in the way that a mode asks for: drives by one worker, balances by another. */
export class Solvers {
  readonly #drive: Pick<HeadStart, 'solve' | 'cancel'>;
  readonly live: LiveSolver;

  constructor(drive: Pick<HeadStart, 'solve' | 'cancel'>, live: LiveSolver) {
    this.#drive = drive;
    this.live = live;
  }

  async solve(document: unknown, tell: (progress: Progress) => void, mode: Mode): Promise<Outcome> {
    if (mode === 'drive') return this.#drive.solve(document, tell);
    return plain(await this.live.solve(document, mode));
  }

  cancel(mode: Mode): void {
    if (mode === 'drive') this.#drive.cancel();
    else this.live.cancel();
  }
}
