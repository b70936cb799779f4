import { limits } from '../../shared/schema/scenario.ts';
import { formatQuantity } from '../../shared/units.ts';

/** A length (m) for a message, to six digits: '39 mm', '1.5 m'. */
export const spoken = (length: number): string => formatQuantity(length, 'length', 6);

/** What to say about ground with that many points: more than `limits.groundPoints`. */
export function tooManyPoints(count: number): string {
  const figure = (n: number) => n.toLocaleString('en');
  return `makes a ground of ${figure(count)} points; at most ${figure(limits.groundPoints)} are allowed`;
}

/** Vertices nearer than this, m, are one vertex: a shorter segment has no direction worth the name. */
export const sameVertex = 1e-9;
