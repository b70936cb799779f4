import type { Command } from 'commander';
import { layGround } from '../../index.ts';
import { type Alternative, alternativesOf, topSpeedOf } from '../../ledger/alternatives.ts';
import { crossRegardless, type LedgerCrossing } from '../../ledger/crossing.ts';
import { firstToGive, isOver } from '../../ledger/ledger.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { storedEnergies } from '../../strength/energy.ts';
import { exits } from '../exit.ts';
import type { OutFile } from '../files/folder.ts';
import { ledgerCsv, partsCsv } from '../files/ledger-csv.ts';
import type { Loaded } from '../input/load.ts';
import type { AlternativeReport, LedgerReport } from '../ledger-report.ts';
import { ledgerSvg } from '../picture/ledger.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { ledgerText, quietLedger } from '../text/ledger.ts';
import { stationsOf } from './crawl.ts';

/** `axlewright ledger`: all that could end the crossing in one sorted list, and what would help. */
export const ledger = scenarioVerb<LedgerFlags>({
  name: 'ledger',
  mode: 'ledger',
  summary: 'list all that could end the crossing, the nearest to its limit first, and what would help',
  examples: [
    ['axlewright ledger cairn-6x6-shafts', 'what gives first, what would help'],
    ['axlewright ledger my-truck.json --out results', 'torque in each part, as CSV'],
  ],
  options: (command: Command) =>
    command
      .option('--stations <number>', 'stations from start to end, more where contacts change', stationsOf)
      .option('--no-alternatives', 'leave out what would help'),
  work(loaded, problems, terminal, { stations, alternatives }) {
    const { scenario, source } = loaded;
    const ground = layGround(scenario, source);
    const crossed = crossRegardless(scenario, ground, stations);
    terminal.progress('trying what would help');
    const changes = alternatives
      ? alternativesOf(scenario, ground, { today: crossed, ...(stations === undefined ? {} : { stations }) })
      : [];
    const report = reportOf(loaded, crossed, changes, problems);
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: ledgerText(report, terminal.style, terminal.width),
      quiet: quietLedger(report),
      found: [],
      files: filesOf(crossed, report),
    };
  },
});

/** The options that only this verb has. */
interface LedgerFlags {
  readonly stations?: number;
  readonly alternatives: boolean;
}

function reportOf(
  { scenario }: Loaded,
  { mechanism, recording, ledger: found }: LedgerCrossing,
  alternatives: readonly Alternative[],
  problems: LedgerReport['problems'],
): LedgerReport {
  return {
    mode: 'ledger',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(mechanism),
    ledger: found,
    first: firstToGive(found.lines) ?? null,
    topSpeed: topSpeedOf(mechanism) ?? null,
    stored: storedEnergies(mechanism, recording),
    alternatives: alternatives.map(alternativeReport),
    end: recording.end,
    problems,
    pass: !found.lines.some(isOver),
  };
}

function alternativeReport({ scenario: _vehicle, first, topSpeed, ...rest }: Alternative): AlternativeReport {
  return { ...rest, first: first ?? null, topSpeed: topSpeed ?? null };
}

function filesOf({ series, recording }: LedgerCrossing, report: LedgerReport): OutFile[] {
  return [
    { name: 'ledger.csv', text: ledgerCsv(report.ledger.lines) },
    { name: 'ledger.svg', text: ledgerSvg(report) },
    ...(series === undefined ? [] : [{ name: 'parts.csv', text: partsCsv(series, recording) }]),
  ];
}
