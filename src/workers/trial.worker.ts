import { record } from '../../sim/index.ts';
import { Tryout } from '../../sim/tuning/evaluate.ts';
import type { TrialNews, TrialOrder } from './trial-protocol.ts';

const say = (news: TrialNews): void => self.postMessage(news);

let tryout: Tryout | undefined;

/** @throws Error for designs that come before their study; the pool tells of it */
function made(): Tryout {
  if (tryout === undefined) throw new Error('no study was given yet');
  return tryout;
}

self.addEventListener('message', ({ data }: MessageEvent<TrialOrder>) => {
  if (data.kind === 'study') tryout = new Tryout(data.study, record);
  else if (data.kind === 'about') say({ kind: 'about', id: data.id, about: made().about() });
  else say({ kind: 'outcome', id: data.id, outcome: made().at(data.work.design, { by: data.work.by }) });
});
