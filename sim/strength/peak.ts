import { column, type Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import type { BoundElement } from '../mechanism/mechanism.ts';
import type { Load } from './loads.ts';

/** Greatest value of a load over a run and the first frame of it; 0 in frame 0 when it never carries anything. */
export function peakOf(frames: number, load: Load): { readonly value: number; readonly frame: number } {
  let value = 0;
  let frame = 0;
  for (let f = 0; f < frames; f++) {
    const now = load(f);
    if (!(now > value)) continue;
    value = now;
    frame = f;
  }
  return { value, frame };
}

/** Time and station of a frame. */
export function momentOf(recording: Recording, frame: number): Moment {
  const value = (channel: 'time' | 'station') => column(recording, channel)[frame] as number;
  return { frame, time: value('time'), station: value('station') };
}

const springs: Readonly<Record<string, 'bar' | 'spring'>> = {
  'torsion-bar': 'bar',
  'linear-spring': 'spring',
  'progressive-spring': 'spring',
  'leaf-spring': 'spring',
  'rubber-block': 'spring',
};

/** Whether an element is a bar or a spring that can give way; undefined for dampers, friction and stops. */
export const springSort = ({ kind }: Pick<BoundElement, 'kind'>): 'bar' | 'spring' | undefined =>
  Object.hasOwn(springs, kind) ? springs[kind] : undefined;
