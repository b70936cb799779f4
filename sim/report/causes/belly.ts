import { place, type Vec2 } from '../../../shared/geometry/vec.ts';
import { column, poseAt } from '../../../shared/recording.ts';
import type { Ground } from '../../ground/ground.ts';
import { heightAt } from '../../ground/query.ts';
import type { Run } from '../criterion.ts';
import { angleWords, placeWords, theWheel } from '../words.ts';

/** Pitch below this is not worth a word, rad: half a degree. */
const level = Math.PI / 360;

/** The belly line's corners in the world in a frame, m, in order of x as drawn. */
function bellyAt({ mechanism, recording }: Run, frame: number): readonly Vec2[] {
  const pose = poseAt(recording, mechanism.belly.body, frame);
  return mechanism.belly.points.map((point) => place(pose, point));
}

/** Station where a gap between belly and ground is least, m: at a corner of one of both. Undefined without a belly. */
export function nearestStation(belly: readonly Vec2[], ground: Ground): number | undefined {
  let best: { x: number; gap: number } | undefined;
  const look = (x: number, z: number, height: number): void => {
    const gap = z - height;
    if (best === undefined || gap < best.gap) best = { x, gap };
  };
  belly.forEach((b, i) => {
    look(b.x, b.z, heightAt(ground, b.x));
    const a = belly[i - 1];
    if (a === undefined || !(b.x > a.x)) return;
    for (let v = 0; v < ground.count; v += 1) {
      const x = ground.x[v] as number;
      if (x >= a.x && x <= b.x) look(x, a.z + ((x - a.x) / (b.x - a.x)) * (b.z - a.z), ground.z[v] as number);
    }
  });
  return best?.x;
}

/** The wheel next to a station on one side, with the words for it. */
function neighbour({ recording }: Run, frame: number, x: number, side: 1 | -1): string | undefined {
  let best: { name: string; away: number; station: number } | undefined;
  recording.wheels.forEach((name, w) => {
    const station = column(recording, 'wheelStation', w)[frame] ?? Number.NaN;
    const away = side * (station - x);
    if (away >= 0 && (best === undefined || away < best.away)) best = { name, away, station };
  });
  return best && theWheel(best.name).replace(/^The/, 'the');
}

function between(run: Run, frame: number, x: number): string {
  const ahead = neighbour(run, frame, x, 1);
  const behind = neighbour(run, frame, x, -1);
  if (ahead !== undefined && behind !== undefined) return `between ${behind} and ${ahead}`;
  if (behind !== undefined) return `ahead of ${behind}`;
  return ahead === undefined ? '' : `behind ${ahead}`;
}

/**
 * What the belly came near to in a frame, as a sentence: 'Nearest to it is the ground at 752 mm, part of Step, between the
 * middle wheel and the front wheel; the chassis pitches 4.1° nose-up.' Undefined where the ground is not known here.
 */
export function bellyCause(run: Run, frame: number): string | undefined {
  const ground = run.ground?.();
  const x = ground && nearestStation(bellyAt(run, frame), ground);
  if (ground === undefined || x === undefined) return undefined;
  // At a joint of two pieces the one that rises there: what stands up is what the belly meets.
  const pieces = ground.pieces.filter(({ from, to }) => x >= from - 1e-9 && x <= to + 1e-9);
  const piece = pieces.find(({ kind }) => kind !== 'flat') ?? pieces[0];
  const part = piece === undefined ? '' : `, part of '${piece.title}'`;
  const where = between(run, frame, x);
  const pitch = column(run.recording, 'pitch')[frame] ?? 0;
  const tilt =
    Math.abs(pitch) < level
      ? ''
      : `; the chassis pitches ${angleWords(Math.abs(pitch), 2)} nose-${pitch > 0 ? 'up' : 'down'}`;
  return `Nearest to it is the ground at ${placeWords(run, x)}${part}${where === '' ? '' : `, ${where}`}${tilt}.`;
}
