import { spiral } from '../geometry/shapes.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Wind-up below which no arc is drawn, rad. */
const LEAST = 0.01;

/**
 * Torsion bar, seen along its axis: the bar as a dot, and a sector from where the arm would hang free to where it is.
 * Its angle is the true wind-up, so it opens as the bar is loaded.
 */
export const torsion: Drawing = {
  kinds: ['torsion-bar'],
  draw(site, pen) {
    if (site.shape === 'span') {
      const [a, b] = endsOf(site);
      pen.stroke([[a.x, a.y, b.x, b.y]], 'firm');
      return;
    }
    const bar = Math.max(2, site.unit * 0.1);
    const ring = site.unit * (0.42 + 0.13 * site.slot);
    const free = site.now - site.sign * site.strain;
    const arc = spiral(site.at, ring, ring, free, site.now);
    if (Math.abs(site.strain) > LEAST) {
      pen.fill([site.at.x, site.at.y, ...arc], 'hatch', 'thin');
      pen.stroke([arc], 'load');
    }
    pen.fill(spiral(site.at, bar, bar, 0, Math.PI * 2), 'ink');
  },
};
