import { boxAlong, spiral } from '../geometry/shapes.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Teeth of the ring that stands for dry friction. */
const TEETH = 10;

/** Friction of a pivot or a guide: a toothed ring round the pin, or shoes on the guide. */
export const friction: Drawing = {
  kinds: ['pivot-friction', 'guide-friction'],
  draw(site, pen) {
    if (site.shape === 'span') {
      const [a, b] = endsOf(site);
      const half = site.unit * 0.08;
      pen.fill(boxAlong(a, b, 0.42, 0.58, half * 0.4, half), 'ink');
      pen.fill(boxAlong(a, b, 0.42, 0.58, half * 0.4, -half), 'ink');
      return;
    }
    const r = site.unit * 0.17;
    const teeth = Array.from({ length: TEETH }, (_, k) => {
      const angle = site.now + (2 * Math.PI * k) / TEETH;
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      return [site.at.x + r * c, site.at.y - r * s, site.at.x + r * 1.28 * c, site.at.y - r * 1.28 * s];
    });
    pen.stroke([spiral(site.at, r, r, 0, Math.PI * 2), ...teeth], 'thin', 'soft');
  },
};
