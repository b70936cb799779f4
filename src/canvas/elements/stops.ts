import { along, beside, type Spot, spiral } from '../geometry/shapes.ts';
import type { Pen } from '../pen.ts';
import type { Site, SpanSite, TurnSite } from '../sites.ts';
import { endsOf } from './coil.ts';
import type { Drawing } from './drawing.ts';

/** A block from `a` to `b`, `thick` px to the left of that way: outlined while there is room, solid when it is met. */
function block(a: Spot, b: Spot, thick: number, met: boolean, pen: Pen): void {
  const p = beside(a, b, 0, thick);
  const q = beside(a, b, 1, thick);
  pen.fill([a.x, a.y, b.x, b.y, q.x, q.y, p.x, p.y], met ? 'ink' : 'paper', 'thin');
}

/** Round a hinge: a tooth on the parent at the limit, and the arc that is left until the moving part meets it. */
function drawTurn(site: TurnSite, way: 1 | -1, pen: Pen): void {
  const r = site.unit * 0.66;
  const limit = site.drawn + site.sign * site.limit;
  const met = site.effort !== 0;
  if (!met) pen.stroke([spiral(site.at, r, r, site.now, limit)], 'thin', 'faint');
  const half = Math.min(5, Math.max(2, site.unit * 0.08));
  const at = (radius: number): Spot => ({
    x: site.at.x + radius * Math.cos(limit),
    y: site.at.y - radius * Math.sin(limit),
  });
  block(at(r - half), at(r + half), site.sign * way * half * 1.2, met, pen);
}

/** Along a guide or a strut: a plate on the moving end, and a block that the parent holds in its way. */
function drawSpan(site: SpanSite, way: 1 | -1, pen: Pen): void {
  const [a, b] = endsOf(site);
  const { length } = along(a, b);
  if (length < 1) return;
  const met = site.effort !== 0;
  const half = Math.min(6, Math.max(2.5, site.unit * 0.12));
  const room = met ? 0 : Math.max(0, way * (site.limit - site.x)) * site.scale;
  const t = (way * room) / length;
  const p = beside(a, b, t, half);
  const q = beside(a, b, t, -half);
  const foot = beside(a, b, 0, 0);
  const plate = [beside(a, b, 0, half * 1.2), beside(a, b, 0, -half * 1.2)] as const;
  if (!met) pen.stroke([[foot.x, foot.y, (p.x + q.x) / 2, (p.y + q.y) / 2]], 'thin', 'faint');
  pen.stroke([[plate[0].x, plate[0].y, plate[1].x, plate[1].y]], 'line');
  block(way > 0 ? p : q, way > 0 ? q : p, half * 0.9, met, pen);
}

function drawing(kind: string, way: 1 | -1): Drawing {
  return {
    kinds: [kind],
    draw: (site: Site, pen) => (site.shape === 'turn' ? drawTurn(site, way, pen) : drawSpan(site, way, pen)),
  };
}

export const bumpStop = drawing('bump-stop', 1);
export const droopStop = drawing('droop-stop', -1);
