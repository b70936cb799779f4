import type { Problem } from '../../../shared/problem.ts';
import type { Ground } from '../../ground/ground.ts';
import { compile, layGround, type Scenario } from '../../index.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { exits } from '../exit.ts';
import type { CheckReport } from '../report-json.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { count, figure } from '../text/figures.ts';
import { headLines } from '../text/report.ts';

/** `axlewright check`: reads, checks and compiles a scenario; nothing runs. */
export const check = scenarioVerb({
  name: 'check',
  mode: 'check',
  summary: 'read a scenario and list everything that is wrong with it; nothing runs',
  examples: [['axlewright check my-truck.json', 'is the file sound?']],
  work({ scenario, source }, warnings, { style, width }) {
    const mechanism = compile(scenario);
    const report = checkReport(scenario, mechanism, warnings);
    const lines = [
      ...headLines(report, style, width),
      contents(scenario, mechanism, layGround(scenario, source)),
      '',
      style.good('The scenario is sound.'),
    ];
    return { exit: exits.pass, report, text: `${lines.join('\n')}\n`, quiet: '', found: [], files: [] };
  },
});

function checkReport(scenario: Scenario, mechanism: Mechanism, problems: readonly Problem[]): CheckReport {
  return {
    mode: 'check',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(mechanism),
    wheels: mechanism.wheels.map(({ name, axle, count: wheels }) => ({ id: name, axle, count: wheels })),
    measures: [],
    events: [],
    verdicts: [],
    problems,
    pass: true,
  };
}

/** `3 axle lines, 7 bodies, 9 elements; 2.40 m of ground in 3 pieces; 4 criteria` */
function contents(scenario: Scenario, mechanism: Mechanism, ground: Ground): string {
  const vehicle = [
    count(mechanism.wheels.length, 'axle line'),
    count(mechanism.bodies.length, 'body', 'bodies'),
    count(mechanism.elements.length, 'element'),
  ].join(', ');
  const laid = `${figure(ground.to - ground.from, 'm')} of ground in ${count(ground.pieces.length, 'piece')}`;
  return `${vehicle}; ${laid}; ${count(scenario.criteria.length, 'criterion', 'criteria')}`;
}
