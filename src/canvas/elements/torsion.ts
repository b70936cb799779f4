import { spiral } from '../geometry/shapes.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Steps of the fan that shows the wind-up: rad. */
const FAN_LEAST = 0.02;

/**
 * Torsion bar, seen along its axis: a round bar, a spiral from it to the moving part, and a strong arc that spans the
 * true angle by which the bar is wound.
 */
export const torsion: Drawing = {
  kinds: ['torsion-bar'],
  draw(site, pen) {
    if (site.shape === 'span') {
      const [a, b] = endsOf(site);
      pen.stroke([[a.x, a.y, b.x, b.y]], 'firm');
      return;
    }
    const bar = Math.max(2, site.unit * 0.09);
    const ring = site.unit * (0.4 + 0.1 * site.slot);
    const free = site.now - site.sign * site.strain;
    pen.stroke([spiral(site.at, bar, ring, free - site.sign * Math.PI * 2.5, site.now)], 'thin');
    if (Math.abs(site.strain) > FAN_LEAST) {
      const { x, y } = site.at;
      pen.stroke([[x, y, x + ring * Math.cos(free), y - ring * Math.sin(free)]], 'thin', 'soft');
      pen.stroke([spiral(site.at, ring, ring, free, site.now)], 'load');
    }
    pen.fill(spiral(site.at, bar, bar, 0, Math.PI * 2), 'ink');
  },
};
