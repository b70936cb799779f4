import { beside, coil, type Spot, spiral } from '../geometry/shapes.ts';
import type { Pen } from '../pen.ts';
import type { Site, SpanSite } from '../sites.ts';
import type { Drawing } from './drawing.ts';

/** Where things that share a guide stand beside each other, in wheel radii to the left of it. */
const SLOTS = [0, 0.42, -0.42, 0.68, -0.68, 0.9, -0.9] as const;

/** Ends of a span, moved sideways to its own slot unless the ends are the user's own. */
export function endsOf(site: SpanSite): readonly [Spot, Spot] {
  const side = site.exact ? 0 : (SLOTS[site.slot % SLOTS.length] ?? 0) * site.unit;
  return [beside(site.a, site.b, 0, side), beside(site.a, site.b, 1, side)];
}

/** A spring round a hinge: a flat spiral from the parent to the moving part. It winds up by the true angle. */
export function drawClock(site: Extract<Site, { shape: 'turn' }>, pen: Pen, turns: number): void {
  const r = site.unit * (0.2 + 0.1 * site.slot);
  const rest = site.now - site.sign * site.strain;
  pen.stroke([spiral(site.at, r * 0.45, r, rest - site.sign * 2 * Math.PI * turns, site.now)], 'line');
}

function drawCoil(site: SpanSite, pen: Pen, turns: number, pitch?: (t: number) => number): void {
  const [a, b] = endsOf(site);
  const half = Math.min(site.unit * 0.24, Math.max(2.5, site.drawn * 0.3));
  const { front, back, seats } = coil(a, b, turns, half, pitch);
  pen.stroke(back, 'thin');
  pen.stroke([...front, ...seats], 'firm');
}

/** Coil spring: the turns close up with the true travel. */
export const linearCoil: Drawing = {
  kinds: ['linear-spring'],
  draw: (site, pen) => (site.shape === 'span' ? drawCoil(site, pen, 5) : drawClock(site, pen, 1.5)),
};

/** Progressive coil: its turns are crowded at one end, as such springs are wound. */
export const progressiveCoil: Drawing = {
  kinds: ['progressive-spring'],
  draw: (site, pen) =>
    site.shape === 'span' ? drawCoil(site, pen, 6, (t) => t ** 1.6) : drawClock(site, pen, 2),
};
