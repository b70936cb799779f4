import { type Command, InvalidArgumentError } from 'commander';
import { crawl as crawlOver } from '../../index.ts';
import { runOutcome } from '../run.ts';
import { scenarioVerb } from '../scenario-verb.ts';

/** Most stations that may be asked for: the recording of a large vehicle then takes some 200 MB. */
const mostStations = 100_000;

/** `axlewright crawl`: crosses the ground in balance, station by station, and shows the forces in every joint. */
export const crawl = scenarioVerb<CrawlFlags>({
  name: 'crawl',
  mode: 'crawl',
  summary: 'cross the ground in balance, too slowly for inertia: loads, thrust, forces in every joint',
  examples: [
    ['axlewright crawl corrie-6x6', 'the greatest force in each joint'],
    ['axlewright crawl my-truck.json --sharing open', 'with open differentials throughout'],
  ],
  options: (command: Command) =>
    command
      .option('--stations <number>', 'stations from start to end, more where contacts change', stationsOf)
      .option('--sharing <kind>', "how the thrust is shared: short for --set 'vehicle.drive.sharing=…'")
      .option('--regardless', 'go on where grip or torque would not do'),
  sets: ({ sharing }) => (sharing === undefined ? [] : [`vehicle.drive.sharing=${sharing}`]),
  work(loaded, warnings, terminal, { stations, regardless }) {
    const { scenario, source } = loaded;
    const recording = crawlOver(scenario, {
      source,
      ...(stations === undefined ? {} : { stations }),
      ...(regardless === undefined ? {} : { regardless }),
    });
    return runOutcome(loaded, recording, warnings, terminal);
  },
});

/** The options that only a crawl has. */
interface CrawlFlags {
  readonly stations?: number;
  readonly sharing?: string;
  readonly regardless?: true;
}

export function stationsOf(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1 || number > mostStations)
    throw new InvalidArgumentError(`Wanted: a whole number from 1 to ${mostStations}.`);
  return number;
}
