import type { Vec2 } from '../../shared/geometry/vec.ts';
import { schemaAt } from '../../shared/schema/describe.ts';
import { type Scenario, scenarioDocument } from '../../sim/scenario/schema.ts';
import { isObject, type Json, withoutValue, withValue } from '../documents/json.ts';

/** A picture to draw over, SI: see the document's schema. */
export type Underlay = NonNullable<Scenario['underlay']>;

/** One change of the picture with its name for the history. */
export interface UnderlayEdit {
  readonly says: string;
  readonly document: Json;
}

/** The picture of a document, or undefined when it has none that can be read. */
export function underlayOf(document: Json): Underlay | undefined {
  if (!isObject(document) || !isObject(document.underlay)) return undefined;
  const read = schemaAt(scenarioDocument, document, ['underlay'])?.safeParse(document.underlay);
  return read?.success === true ? (read.data as Underlay) : undefined;
}

/** A length as the document is to have it: to a hundredth of a millimetre, in millimetres. */
const mm = (metres: number): string => `${Number((metres * 1000).toFixed(2))} mm`;
const deg = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(2))} deg`;

/** The document with this picture. */
function put(document: Json, says: string, u: Underlay): UnderlayEdit {
  const written = {
    picture: u.picture,
    at: { x: mm(u.at.x), z: mm(u.at.z) },
    width: mm(u.width),
    angle: deg(u.angle),
    opacity: Number(u.opacity.toFixed(2)),
    locked: u.locked,
    inFiles: u.inFiles,
  };
  return { says, document: withValue(document, ['underlay'], written) };
}

/** Puts a new picture under the drawing, its middle at a place, `width` m wide. */
export function layPicture(document: Json, picture: string, at: Vec2, width: number): UnderlayEdit {
  const before = underlayOf(document);
  const { angle = 0, opacity = 0.6, inFiles = false } = before ?? {};
  return put(document, 'lay a picture under', { picture, at, width, angle, opacity, locked: false, inFiles });
}

/** Changes figures of the picture. The document as it is when it has none. */
export function setPicture(document: Json, says: string, change: Partial<Underlay>): UnderlayEdit {
  const before = underlayOf(document);
  return before === undefined ? { says, document } : put(document, says, { ...before, ...change });
}

/** Takes the picture away. */
export function removePicture(document: Json): UnderlayEdit {
  const says = 'remove the picture';
  if (!isObject(document) || document.underlay === undefined) return { says, document };
  return { says, document: withoutValue(document, ['underlay']) };
}

/**
 * The picture scaled about the first of two drawn points so that these come to lie `apart` m from each other. Both points
 * stay on the same spots of the picture; the direction from one to the other stays.
 * Undefined when the points lie together.
 */
export function scaledBy(u: Underlay, a: Vec2, b: Vec2, apart: number): Partial<Underlay> | undefined {
  const now = Math.hypot(b.x - a.x, b.z - a.z);
  if (!(now > 0) || !(apart > 0)) return undefined;
  const factor = apart / now;
  return {
    width: u.width * factor,
    at: { x: a.x + (u.at.x - a.x) * factor, z: a.z + (u.at.z - a.z) * factor },
  };
}

/** The picture turned about the first of two drawn points so that the second comes to lie level with it. */
export function levelledBy(u: Underlay, a: Vec2, b: Vec2): Partial<Underlay> | undefined {
  const dx = b.x - a.x;
  if (dx === 0 && b.z === a.z) return undefined;
  const now = Math.atan2(b.z - a.z, dx);
  // the nearer of the two ways to be level, so that a picture is never turned upside down
  const turn = -(now - Math.round(now / Math.PI) * Math.PI);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [x, z] = [u.at.x - a.x, u.at.z - a.z];
  return { angle: u.angle + turn, at: { x: a.x + c * x - s * z, z: a.z + s * x + c * z } };
}
