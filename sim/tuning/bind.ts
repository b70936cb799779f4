import { pathText } from '../../shared/path.ts';
import { type Checked, type Problem, Problems } from '../../shared/problem.ts';
import type { GroundSource } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import { compileChecked } from '../mechanism/compile.ts';
import { criterionNameProblems } from '../report/names.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { MethodKind } from '../searching/method.ts';
import { methodKinds } from '../searching/registry.ts';
import { checkSearch } from '../searching/search.ts';
import type { Stock } from '../stock/stock.ts';
import type { BoundStudy, StudyGround } from './bound.ts';
import { type Dial, placesOf, spaceOf } from './dial.ts';
import type { StudyDocument } from './document.ts';
import { stockDialOf } from './from-stock.ts';
import { goalOf } from './goal.ts';
import { dialOf } from './numbers.ts';
import { roughFigures, uncertainOf } from './sure.ts';

/** What a study names: its scenario, other scenarios by the words of the study, and the files beside each. */
export interface StudyParts {
  readonly scenario: Scenario;
  readonly source: GroundSource;
  /** Files beside the study, for grounds that are written in it. */
  readonly own: GroundSource;
  /** The scenario as it is written, for the spreads of its figures. */
  readonly written?: unknown;
  /** The stock that the study names. */
  readonly stock?: Stock;
  /** A scenario that a ground names; undefined where there is none, which was told elsewhere. */
  other(name: string): { readonly scenario: Scenario; readonly source: GroundSource } | undefined;
}

export type { BoundStudy, StudyGround } from './bound.ts';

/**
 * Puts a study together with what it names, and checks what it means: places and knobs, ranges, lists, grounds, goals,
 * criteria and the method. All problems at once, with their paths in the study.
 */
export function bindStudy(document: StudyDocument, parts: StudyParts): Checked<BoundStudy> {
  const problems = new Problems();
  const { criteria = parts.scenario.criteria } = document;
  const scenario = { ...parts.scenario, criteria };
  const dials = document.vary.map((ask, i) =>
    ask.stock === undefined
      ? dialOf(ask, `vary[${i}]`, scenario, problems)
      : stockDialOf(ask, `vary[${i}]`, parts.stock, scenario, problems),
  );
  tellClashes(dials, document, problems);
  const grounds = groundsOf(document, scenario, parts, problems);
  const by = document.run.by ?? (grounds.some(isRough) ? 'drive' : 'crawl');
  const goals = document.goals.map((goal, i) => {
    const read = goalOf(goal, scenario, by === 'drive');
    problems.add(read.problems.map((p) => ({ ...p, path: `goals[${i}].measure` })));
    return read.ok ? read.value : undefined;
  });
  tellCriteria(document, scenario, problems);
  const turning = dials.filter((dial) => dial !== undefined);
  if (turning.length === dials.length) problems.add(methodProblems(document, turning));
  const study: BoundStudy = {
    document,
    scenario,
    dials: turning,
    grounds,
    goals: goals.filter((goal) => goal !== undefined),
    by,
    confirm: by === 'crawl' ? document.run.confirm : 0,
    ...(parts.stock === undefined ? {} : { stock: parts.stock }),
    rough: roughFigures(document, scenario, parts.written, problems),
  };
  tellChance(study, problems);
  return problems.check(study);
}

/** A study of chance needs something that chance draws. */
function tellChance(study: BoundStudy, problems: Problems): void {
  const { document } = study;
  const robust = document.method.kind === 'robust-optimum' ? 'method' : undefined;
  const asked = document.sure === undefined ? robust : 'sure';
  if (asked !== undefined && uncertainOf(study, null).length === 0)
    problems.error(
      asked,
      'needs figures with a spread, and neither scenario nor study has one',
      'give one in "sure.spreads", or write "2.2 kg ± 5 %" in the scenario',
    );
}

/** Ground kinds that are crossed with inertia when nothing else is said. */
const isRough = ({ scenario }: StudyGround): boolean => scenario.ground.some(({ kind }) => kind === 'rough');

function methodProblems({ method, goals }: StudyDocument, dials: readonly Dial[]): Problem[] {
  const found = checkSearch(spaceOf(dials), method).map((p) => ({
    ...p,
    path: p.path === '' ? 'method' : `method: ${p.path}`,
  }));
  const kinds = methodKinds as readonly unknown[] as readonly MethodKind[];
  const { least, most } = kinds.find(({ kind }) => kind === method.kind)?.goals ?? { least: 0, most: 4 };
  if (goals.length >= least && goals.length <= most) return found;
  const wants = least === most ? `${least}` : `${least} to ${most}`;
  const message = `has ${goals.length === 1 ? 'one goal' : `${goals.length} goals`}, the method '${method.kind}' takes ${wants}`;
  return [...found, { path: 'goals', message, hint: 'change the goals, or the method', severity: 'error' }];
}

/** Two numbers must not write to one place: which of them would hold there? Knobs may: their moves add. */
function tellClashes(
  dials: readonly (Dial | undefined)[],
  { vary, grounds }: StudyDocument,
  problems: Problems,
): void {
  const taken = new Map<string, number>();
  dials.forEach((dial, i) => {
    if (dial === undefined) return;
    const places = [...new Set(placesOf(dial).map((path) => path.join('/')))];
    const clash = [...taken].find(
      ([other, by]) =>
        by !== i &&
        !(dial.turns.kind === 'knob' && dials[by]?.turns.kind === 'knob') &&
        places.some((p) => p === other || p.startsWith(`${other}/`) || other.startsWith(`${p}/`)),
    );
    if (clash !== undefined)
      problems.error(
        `vary[${i}]`,
        `sets what vary[${clash[1]}] sets too: ${pathText(clash[0].split('/').map((s) => (/^\d+$/.test(s) ? Number(s) : s)))}`,
        'take one of the two out',
      );
    for (const place of places) taken.set(place, i);
    if (grounds !== undefined && places.some((p) => p.startsWith('ground/')))
      problems.error(
        `vary[${i}]`,
        'varies the ground of the scenario, which a study with grounds of its own does not cross',
        "take 'grounds' out, or vary the vehicle",
      );
    if (vary[i]?.name !== undefined && dials.findIndex((d) => d?.name === vary[i]?.name) < i)
      problems.error(`vary[${i}].name`, 'is the name of another number too', 'give it a name of its own');
  });
}

function tellCriteria({ criteria }: StudyDocument, scenario: Scenario, problems: Problems): void {
  const compiled = compileChecked(scenario);
  if (criteria !== undefined && compiled.ok) problems.add(criterionNameProblems(criteria, compiled.value));
}

function groundsOf(
  { grounds = [{ weight: 1 }] }: StudyDocument,
  scenario: Scenario,
  parts: StudyParts,
  problems: Problems,
): StudyGround[] {
  const found = grounds.flatMap((ask, i): StudyGround[] => {
    const at = `grounds[${i}]`;
    if (ask.ground !== undefined && ask.scenario !== undefined)
      problems.error(at, "has both 'ground' and 'scenario'", 'keep one of them');
    const other = ask.scenario === undefined ? undefined : parts.other(ask.scenario);
    if (ask.scenario !== undefined && other === undefined) return [];
    const { start: _start, until: _until, ...run } = scenario.run;
    const crossed =
      other !== undefined
        ? {
            ground: other.scenario.ground,
            run: { ...run, start: other.scenario.run.start, until: other.scenario.run.until },
          }
        : ask.ground !== undefined
          ? { ground: ask.ground, run }
          : { ground: scenario.ground, run: scenario.run };
    const source = other?.source ?? (ask.ground === undefined ? parts.source : parts.own);
    const files: Record<string, string> = {};
    const laid = layGround(crossed.ground, { file: (name) => kept(files, name, source) });
    problems.add(laid.problems.map((p) => ({ ...p, path: `${at}: ${p.path}` })));
    const speed = ask.speed ?? scenario.vehicle.drive.speed;
    const drive = { ...scenario.vehicle.drive, speed };
    return [
      {
        name: ask.name ?? ask.scenario ?? (ask.ground === undefined ? 'own ground' : `ground ${i + 1}`),
        weight: ask.weight,
        scenario: { ...scenario, ...crossed, vehicle: { ...scenario.vehicle, drive } } as Scenario,
        files,
      },
    ];
  });
  if (found.length > 0 && !found.some(({ weight }) => weight > 0))
    problems.error('grounds', 'all have the weight 0', 'give one of them a weight above 0');
  return found;
}

/** Reads a file and remembers its text. */
function kept(files: Record<string, string>, name: string, source: GroundSource): string | undefined {
  const text = source.file(name);
  if (text !== undefined) files[name] = text;
  return text;
}
