import { column, type Recording } from '../../shared/recording.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { placeWords, stationWords } from '../report/words.ts';
import { shareOf, type Track } from './track.ts';
import { usedWords } from './words.ts';

/**
 * How near the vehicle is to tipping over, towards its rear and its front: by how much the plumb line of its centre of
 * gravity has moved towards the contact of the outermost axle line, over its distance as drawn. At 100 % it stands over
 * that contact. Pulls from outside move the plumb line by their moment about the contact over the weight.
 * Source: static stability margin, McGhee & Frank 1968 (from memory); the share of the drawn distance is our own.
 */
export function tippingTracks(run: Run): Track[] {
  const { mechanism, recording } = run;
  if (mechanism.wheels.length < 2) return [];
  const plumb = plumbLine(mechanism, recording);
  const stations = column(recording, 'station');
  return (['rear', 'front'] as const).flatMap((end): Track[] => {
    const sign = end === 'rear' ? 1 : -1;
    const w = outermost(mechanism, -sign);
    const wheel = mechanism.wheels[w] as Mechanism['wheels'][number];
    const drawn = sign * (mechanism.cg.x - wheel.hub.x);
    if (!(drawn > 0)) return [];
    const contacts = column(recording, 'wheelStation', w);
    const pulled = pullMoments(mechanism, recording, w, contacts);
    const weight = mechanism.mass * mechanism.gravity;
    const left = contacts.map((at, f) => sign * ((plumb[f] as number) - at + (pulled[f] as number) / weight));
    const carries = left.map((way) => Math.max(0, drawn - way));
    return [
      {
        head: { sort: 'tipping', of: `over the ${wheel.name} axle line`, quantity: 'plumb line', unit: 'm' },
        use: carries.map((moved) => shareOf(moved, drawn)),
        carries,
        limit: () => drawn,
        says: (f) =>
          `The plumb line of the centre of gravity comes within ${formatQuantity(Math.max(0, left[f] as number), 'length')} of the contact of ${wheel.name} at ${stationWords(run, stations[f] as number)}, from ${placeWords(run, drawn)} as drawn (${usedWords(shareOf(carries[f] as number, drawn))} of the way to tipping over).`,
      },
    ];
  });
}

/** The axle line furthest ahead (sense 1) or behind (−1). */
function outermost({ wheels }: Mechanism, sense: number): number {
  return wheels.reduce(
    (best, wheel, w) => (sense * wheel.hub.x > sense * (wheels[best]?.hub.x ?? 0) ? w : best),
    0,
  );
}

/** Station of the whole vehicle's centre of gravity in every frame, m. */
function plumbLine({ bodies, mass }: Mechanism, recording: Recording): Float64Array {
  const sum = new Float64Array(recording.frames);
  bodies.forEach(({ mass: own, centre }, b) => {
    const x = column(recording, 'x', b);
    const angle = column(recording, 'angle', b);
    for (let f = 0; f < sum.length; f++) {
      const turn = angle[f] as number;
      const at = (x[f] as number) + Math.cos(turn) * centre.x - Math.sin(turn) * centre.z;
      sum[f] = (sum[f] as number) + (own * at) / mass;
    }
  });
  return sum;
}

/** Moment of all pulls about the contact of an axle line, nose-down positive, N·m in every frame. */
function pullMoments(
  { pulls, wheels }: Mechanism,
  recording: Recording,
  w: number,
  contacts: Float64Array,
): Float64Array {
  const sum = new Float64Array(recording.frames);
  const wheel = wheels[w];
  if (pulls.length === 0 || wheel === undefined) return sum;
  const placed = (body: number, at: { x: number; z: number }, f: number) => {
    const turn = column(recording, 'angle', body)[f] as number;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return {
      x: (column(recording, 'x', body)[f] as number) + c * at.x - s * at.z,
      z: (column(recording, 'z', body)[f] as number) + s * at.x + c * at.z,
    };
  };
  return sum.map((_, f) => {
    const hub = placed(wheel.body, wheel.hub, f);
    const x = contacts[f] as number;
    const foot = hub.z - Math.sqrt(Math.max(0, wheel.radius ** 2 - (x - hub.x) ** 2));
    return pulls.reduce((moment, { body, at, fx, fz }) => {
      const tied = placed(body, at, f);
      return moment + (tied.z - foot) * fx - (tied.x - x) * fz;
    }, 0);
  });
}
