import { barrel, spiral } from '../geometry/shapes.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Rubber block: it bulges as it is pressed, its side view keeps its area. Round a hinge: a bush. */
export const rubber: Drawing = {
  kinds: ['rubber-block'],
  draw(site, pen) {
    if (site.shape === 'turn') {
      const r = site.unit * (0.22 + 0.08 * site.slot);
      pen.stroke(
        [spiral(site.at, r, r, 0, Math.PI * 2), spiral(site.at, r * 0.6, r * 0.6, 0, Math.PI * 2)],
        'line',
      );
      const way = (k: number) => site.now + k * Math.PI * 0.5;
      const spokes = [0, 1, 2, 3].map((k) => {
        const c = Math.cos(way(k));
        const s = Math.sin(way(k));
        return [site.at.x + r * 0.6 * c, site.at.y - r * 0.6 * s, site.at.x + r * c, site.at.y - r * s];
      });
      pen.stroke(spokes, 'thin');
      return;
    }
    const [a, b] = endsOf(site);
    const half = site.unit * 0.16;
    const now = Math.max(1, Math.hypot(b.x - a.x, b.y - a.y));
    // A parabola's mean is two thirds of its height: the bulge that keeps width × height.
    const bulge = Math.max(-half * 0.4, half * (site.drawn / now - 1) * 1.5);
    pen.fill(barrel(a, b, half, bulge), 'cover', 'firm');
  },
};
