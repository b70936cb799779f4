import type { Verb } from './verb.ts';
import { check } from './verbs/check.ts';
import { crawl } from './verbs/crawl.ts';
import { demos } from './verbs/demos.ts';
import { drive } from './verbs/drive.ts';
import { ledger } from './verbs/ledger.ts';
import { limits } from './verbs/limits.ts';
import { map } from './verbs/map.ts';
import { mass } from './verbs/mass.ts';
import { matters } from './verbs/matters.ts';
import { performance } from './verbs/performance.ts';
import { rough } from './verbs/rough.ts';
import { stand } from './verbs/stand.ts';
import { steer } from './verbs/steer.ts';
import { study } from './verbs/study.ts';
import { winch } from './verbs/winch.ts';

/** All verbs, in the order of `--help`. A new verb is its file and one line here. */
export const verbs = [
  check,
  stand,
  drive,
  crawl,
  ledger,
  mass,
  limits,
  map,
  matters,
  rough,
  study,
  performance,
  winch,
  steer,
  demos,
] as const satisfies readonly Verb[];
