import type { LedgerLine } from '../../shared/report.ts';
import type { Ground } from '../ground/ground.ts';
import { compile } from '../mechanism/compile.ts';
import type { Scenario } from '../scenario/schema.ts';
import { crossRegardless, usualStations } from './crossing.ts';
import { counts, keyOf } from './ledger.ts';
import { factorOf, growing, type Spread, withMore } from './load.ts';
import { narrow, type Tried } from './root.ts';
import { rounding } from './track.ts';

/** How heavy a vehicle may come out for the ground of its scenario; kg. */
export interface GreatestMass {
  /** Greatest mass of the whole vehicle at which everything with a known limit holds; null when no lighter one holds either. */
  readonly mass: number | null;
  /** The whole vehicle today, and what may be put on it (negative: has to come off); null as above. */
  readonly today: number;
  readonly more: number | null;
  /** Factor on the mass items of the document for it; null where more goes to one point. */
  readonly factor: number | null;
  /** What sets it: the line that is at its limit there; undefined when nothing is up to `most`. */
  readonly setBy: LedgerLine | undefined;
  /** Greatest and least mass that were tried. */
  readonly most: number;
  readonly least: number;
  /** Lines that are over their limits today and at every lighter mass too: no mass helps them. They are left out above. */
  readonly unhelped: readonly LedgerLine[];
}

/** How to look. */
export interface MassOptions {
  /** Where more mass goes; less always comes off all mass items alike. */
  readonly spread?: Spread;
  readonly stations?: number;
}

/** Factor from one mass of the scan to the next, and how far it goes both ways, of today's whole mass. */
const growth = 1.25;
const heaviest = 8;
/** Least share of the mass items that is tried. */
const lightest = 0.02;
/** How near to its limit the part that sets the mass is brought, and where a jump is accepted, of today's mass. */
const near = 2e-4;
const width = 1e-6;

/** What one mass came to: lines that count, the worst of them first. */
interface Weighed {
  readonly mass: number;
  readonly lines: readonly LedgerLine[];
}

/**
 * The greatest mass at which everything on the ledger with a known limit holds while the vehicle crosses its ground in
 * balance. Masses are tried from today's upwards by a factor of 1.25 (downwards where something is over its limit today);
 * the first change from holding to not is narrowed until the part that sets it is within 0.02 % of its limit.
 */
export function greatestMass(scenario: Scenario, ground: Ground, options: MassOptions = {}): GreatestMass {
  const { spread = 'items', stations = usualStations } = options;
  const search = new MassSearch(scenario, ground, spread, stations);
  return search.run();
}

class MassSearch {
  readonly #scenario: Scenario;
  readonly #ground: Ground;
  readonly #spread: Spread;
  readonly #stations: number;
  readonly #today: number;
  /** Lines that no mass helps. */
  readonly #unhelped = new Map<string, LedgerLine>();

  constructor(scenario: Scenario, ground: Ground, spread: Spread, stations: number) {
    this.#scenario = scenario;
    this.#ground = ground;
    this.#spread = spread;
    this.#stations = stations;
    this.#today = compile(scenario).mass;
  }

  run(): GreatestMass {
    const now = this.#at(0);
    if (now.over <= 0) return this.#upwards(now);
    const steps = this.#lighter();
    const light = steps.map((more) => this.#at(more));
    const last = light.at(-1) ?? now;
    for (const line of overOf(now))
      if ([...light].every((tried) => overOf(tried).some((other) => keyOf(other) === keyOf(line))))
        this.#unhelped.set(keyOf(line), line);
    const again = [now, ...light].map((tried) => this.#judged(tried));
    const holds = again.find((tried) => tried.over <= 0);
    if (holds === undefined) return this.#result(null, last, last.found.mass);
    const before = again[again.indexOf(holds) - 1];
    return before === undefined ? this.#upwards(holds) : this.#between(holds, before);
  }

  /** Masses below today's, as kg less: only mass items can get lighter, wherever more would go. */
  #lighter(): number[] {
    const items = growing(this.#scenario);
    const found: number[] = [];
    for (let share = 1 / growth; share > lightest; share /= growth) found.push(-(1 - share) * items);
    return found;
  }

  #upwards(from: Tried<Weighed>): GreatestMass {
    let holds = from;
    for (let mass = this.#today * growth; mass <= heaviest * this.#today; mass *= growth) {
      const tried = this.#at(mass - this.#today);
      if (tried.over > 0) return this.#between(holds, tried);
      holds = tried;
    }
    return this.#result(holds, undefined, holds.found.mass);
  }

  #between(holds: Tried<Weighed>, fails: Tried<Weighed>): GreatestMass {
    const found = narrow((more) => this.#at(more), holds, fails, { near, width: width * this.#today });
    return this.#result(found.holds, found.fails, Math.max(fails.found.mass, this.#today));
  }

  /** The ledger with so much more mass. */
  #at(more: number): Tried<Weighed> {
    const loaded = withMore(this.#scenario, more < 0 ? 'items' : this.#spread, more);
    const { ledger, mechanism } = crossRegardless(loaded, this.#ground, this.#stations);
    const lines = ledger.lines.filter(counts);
    return this.#judged({ at: more, over: 0, found: { mass: mechanism.mass, lines } });
  }

  /** The same with how far it is over its limits, lines that no mass helps left out. */
  #judged(tried: Tried<Weighed>): Tried<Weighed> {
    const lines = tried.found.lines.filter((line) => !this.#unhelped.has(keyOf(line)));
    const ends = lines.some((line) => line.gives !== undefined && (line.use ?? 0) <= 1 + rounding);
    const most = Math.max(0, ...lines.map((line) => line.use ?? 0));
    return { ...tried, over: ends ? Number.POSITIVE_INFINITY : most - 1 };
  }

  #result(holds: Tried<Weighed> | null, fails: Tried<Weighed> | undefined, most: number): GreatestMass {
    const told = holds !== null && holds.over > -10 * near ? holds : fails;
    const setBy = told && worstOf(told, this.#unhelped);
    return {
      mass: holds?.found.mass ?? null,
      today: this.#today,
      more: holds?.at ?? null,
      factor:
        holds !== null && (this.#spread === 'items' || holds.at < 0)
          ? factorOf(this.#scenario, holds.at)
          : null,
      setBy: fails === undefined ? undefined : setBy,
      most,
      least: Math.min(this.#today, holds?.found.mass ?? most),
      unhelped: [...this.#unhelped.values()],
    };
  }
}

/** Lines over their limits. */
const overOf = ({ found }: Tried<Weighed>): LedgerLine[] =>
  found.lines.filter((line) => line.gives !== undefined || (line.use ?? 0) > 1);

/** The line that is most over, or nearest to, its limit; one that ends the crossing itself before all others. */
function worstOf({ found }: Tried<Weighed>, unhelped: ReadonlyMap<string, unknown>): LedgerLine | undefined {
  const lines = found.lines.filter((line) => !unhelped.has(keyOf(line)));
  return lines.find((line) => line.gives !== undefined && (line.use ?? 0) <= 1 + rounding) ?? lines[0];
}
