import { along, beside, bow } from '../geometry/shapes.ts';
import { drawClock, endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Half length of the main leaf in wheel radii, camber when drawn, and how much shorter each next leaf is. */
const HALF = 1.5;
const CAMBER = 0.45;
const LEAVES = [1, 0.72, 0.46] as const;

/** Leaf spring: a pack of bows whose camber falls with the true travel; the eyes stay with the parent. */
export const leaf: Drawing = {
  kinds: ['leaf-spring'],
  draw(site, pen) {
    if (site.shape === 'turn') {
      drawClock(site, pen, 1);
      return;
    }
    const [a, b] = endsOf(site);
    const { ux, uy } = along(a, b);
    const camber = site.unit * CAMBER - site.x * site.scale;
    const gap = Math.max(2, site.unit * 0.07);
    LEAVES.forEach((share, i) => {
      const half = site.unit * HALF * share;
      const middle = { x: a.x - ux * gap * i, y: a.y - uy * gap * i };
      const rise = camber * share * share;
      const eye = (side: number) => {
        const p = beside(middle, { x: middle.x + ux, y: middle.y + uy }, rise, side);
        return { x: p.x, y: p.y };
      };
      pen.stroke([bow(eye(half), middle, eye(-half))], i === 0 ? 'firm' : 'line');
    });
  },
};
