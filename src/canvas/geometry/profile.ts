import type { Ground } from '../../../sim/ground/ground.ts';

/** A ground with what is needed to ask it quickly. `area[i]`: integral of z over x from the first vertex to vertex i, m². */
export interface Profile {
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly count: number;
  readonly area: Float64Array;
}

export function profileOf(ground: Pick<Ground, 'x' | 'z' | 'count'>): Profile {
  const { x, z, count } = ground;
  const area = new Float64Array(count);
  for (let i = 1; i < count; i++) {
    const dx = (x[i] as number) - (x[i - 1] as number);
    area[i] = (area[i - 1] as number) + (dx * ((z[i] as number) + (z[i - 1] as number))) / 2;
  }
  return { x, z, count, area };
}

/** First vertex whose x is not below `value`; count when there is none. */
export function vertexFrom(profile: Pick<Profile, 'x' | 'count'>, value: number): number {
  let lo = 0;
  let hi = profile.count;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if ((profile.x[mid] as number) < value) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}

/** Height of the ground at a station, m; at a vertical face the height of the side it is walked onto from behind. Level beyond the ends. */
export function heightAt(profile: Profile, station: number): number {
  const i = vertexFrom(profile, station);
  if (i === 0) return profile.z[0] ?? 0;
  if (i >= profile.count) return profile.z[profile.count - 1] ?? 0;
  const x0 = profile.x[i - 1] as number;
  const z0 = profile.z[i - 1] as number;
  const dx = (profile.x[i] as number) - x0;
  return dx > 0 ? z0 + (((profile.z[i] as number) - z0) * (station - x0)) / dx : (profile.z[i] as number);
}

/** Integral of the height from the first vertex to a station, m². */
function areaTo(profile: Profile, station: number): number {
  if (profile.count === 0) return 0;
  const first = profile.x[0] as number;
  if (station <= first) return (station - first) * (profile.z[0] as number);
  const i = vertexFrom(profile, station);
  const j = Math.min(i, profile.count) - 1;
  const dx = station - (profile.x[j] as number);
  return (profile.area[j] as number) + (dx * ((profile.z[j] as number) + heightAt(profile, station))) / 2;
}

/** Mean height between two stations, m. It moves smoothly while the stretch moves, also over vertical faces. */
export function meanHeight(profile: Profile, from: number, to: number): number {
  return to > from ? (areaTo(profile, to) - areaTo(profile, from)) / (to - from) : heightAt(profile, from);
}

/**
 * The ground line between two stations, as flat [x, z, x, z…] in m, level beyond the ends, thinned so that each step of
 * `grain` m keeps its first, highest, lowest and last vertex.
 */
export function lineBetween(profile: Profile, from: number, to: number, grain: number): number[] {
  const out: number[] = [from, heightAt(profile, from)];
  const end = vertexFrom(profile, to);
  let i = vertexFrom(profile, from);
  while (i < end) {
    const cell = Math.floor(((profile.x[i] as number) - from) / grain);
    let last = i;
    let lo = i;
    let hi = i;
    while (last + 1 < end && Math.floor(((profile.x[last + 1] as number) - from) / grain) === cell) {
      last++;
      if ((profile.z[last] as number) < (profile.z[lo] as number)) lo = last;
      if ((profile.z[last] as number) > (profile.z[hi] as number)) hi = last;
    }
    let before = -1;
    for (const k of last - i < 4 ? range(i, last) : [i, Math.min(lo, hi), Math.max(lo, hi), last]) {
      if (k !== before) out.push(profile.x[k] as number, profile.z[k] as number);
      before = k;
    }
    i = last + 1;
  }
  out.push(to, heightAt(profile, to));
  return out;
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, k) => from + k);
}
