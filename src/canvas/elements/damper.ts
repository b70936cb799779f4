import { along, beside, boxAlong, spiral } from '../geometry/shapes.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** Share of the drawn length that the cylinder takes. */
const CYLINDER = 0.52;

/** Damper: a cylinder at the lower end and a rod that slides into it by the true travel. Round a hinge: a vane in a ring. */
export const damper: Drawing = {
  kinds: ['damper'],
  draw(site, pen) {
    if (site.shape === 'turn') {
      const r = site.unit * (0.24 + 0.1 * site.slot);
      const { x, y } = site.at;
      pen.stroke([spiral(site.at, r, r, 0, Math.PI * 2)], 'thin', 'soft');
      pen.stroke([[x, y, x + r * Math.cos(site.now), y - r * Math.sin(site.now)]], 'line');
      return;
    }
    const [a, b] = endsOf(site);
    const { length } = along(a, b);
    if (length < 1) return;
    const half = Math.min(site.unit * 0.1, 7);
    const body = Math.min(0.94, (site.drawn * CYLINDER) / length);
    const piston = Math.max(0.06, body - 0.35 * body - 0.15 * (1 - body));
    const p = beside(a, b, piston, half * 0.8);
    const q = beside(a, b, piston, -half * 0.8);
    const rod = beside(a, b, piston, 0);
    pen.fill(boxAlong(a, b, 0.05, body, half), 'cover', 'line');
    pen.stroke(
      [
        [rod.x, rod.y, b.x, b.y],
        [p.x, p.y, q.x, q.y],
      ],
      'firm',
    );
  },
};
