import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';

const side = (says: string) => quantity('length', says, { least: 1e-5, most: 10 });
const wall = (says: string) => quantity('length', says, { least: 1e-6, most: 10 });
const shape = <const N extends string>(name: N, says: string) => z.literal(name).meta({ description: says });

/** Section of a rod or of a beam that is bent in the side view. */
export const beamSection = z
  .discriminatedUnion('shape', [
    z.strictObject({ shape: shape('round', 'Solid round bar.'), diameter: side('Diameter.') }),
    z
      .strictObject({
        shape: shape('tube', 'Round tube.'),
        outside: side('Outside diameter.'),
        inside: side('Inside diameter.'),
      })
      .refine((s) => s.inside < s.outside, {
        message: 'the inside diameter must be smaller than the outside diameter',
        path: ['inside'],
      }),
    z.strictObject({
      shape: shape('rectangle', 'Solid rectangle.'),
      width: side('Across the vehicle.'),
      height: side('Height in the side view.'),
    }),
    z
      .strictObject({
        shape: shape('box', 'Rectangular tube.'),
        width: side('Outside, across the vehicle.'),
        height: side('Outside height in the side view.'),
        wall: wall('Thickness of the wall.'),
      })
      .refine((s) => 2 * s.wall < Math.min(s.width, s.height), {
        message: 'two walls must be thinner than the box',
        path: ['wall'],
      }),
    z
      .strictObject({
        shape: shape('i-beam', 'Two flanges on an upright web.'),
        width: side('Width of the flanges.'),
        height: side('Whole height in the side view.'),
        flange: wall('Thickness of a flange.'),
        web: wall('Thickness of the web.'),
      })
      .refine((s) => 2 * s.flange < s.height && s.web < s.width, {
        message: 'the flanges must be thinner than half the height, the web thinner than the width',
        path: ['flange'],
      }),
  ])
  .meta({ description: 'Section at the weakest place.' });

export type BeamSection = z.output<typeof beamSection>;

/** What a section carries with, m. */
export interface SectionFigures {
  readonly area: number;
  /** Second moment for bending in the side view and across it, m⁴. */
  readonly inertia: number;
  readonly across: number;
  /** Outer fibre from the middle in the side view. */
  readonly outer: number;
  /** Greatest shear stress over shear force/area of the whole section. */
  readonly shear: number;
  /** Material at mid-height across the vehicle, and the height over which it is that thick: what a pin hole takes. */
  readonly middle: number;
  readonly clear: number;
  /** Thickness by which drawn wire has its strength, m. */
  readonly thickness: number;
}

const box = (b: number, h: number): number => (b * h ** 3) / 12;
const disc = (d: number): number => (Math.PI * d ** 4) / 64;

/**
 * Area, second moments and shear of a section. Greatest shear: 4/3·V/A round, 3/2 rectangle, 2 thin tube (taken for any),
 * V over the webs alone for box and I. Source: any text on strength of materials (Shigley, transverse shear).
 */
export function sectionFigures(s: BeamSection): SectionFigures {
  switch (s.shape) {
    case 'round': {
      const area = (Math.PI * s.diameter ** 2) / 4;
      const d = s.diameter;
      return {
        area,
        inertia: disc(d),
        across: disc(d),
        outer: d / 2,
        shear: 4 / 3,
        middle: d,
        clear: d,
        thickness: d,
      };
    }
    case 'tube': {
      const area = (Math.PI * (s.outside ** 2 - s.inside ** 2)) / 4;
      const inertia = disc(s.outside) - disc(s.inside);
      const middle = s.outside - s.inside;
      return {
        area,
        inertia,
        across: inertia,
        outer: s.outside / 2,
        shear: 2,
        middle,
        clear: s.inside,
        thickness: middle / 2,
      };
    }
    case 'rectangle': {
      const { width: b, height: h } = s;
      const whole = { area: b * h, inertia: box(b, h), across: box(h, b) };
      return { ...whole, outer: h / 2, shear: 1.5, middle: b, clear: h, thickness: Math.min(b, h) };
    }
    case 'box': {
      const { width: b, height: h, wall: t } = s;
      const [ib, ih] = [b - 2 * t, h - 2 * t];
      const area = b * h - ib * ih;
      const moments = { inertia: box(b, h) - box(ib, ih), across: box(h, b) - box(ih, ib) };
      return {
        area,
        ...moments,
        outer: h / 2,
        shear: area / (2 * t * ih),
        middle: 2 * t,
        clear: ih,
        thickness: t,
      };
    }
    case 'i-beam': {
      const { width: b, height: h, flange: f, web: w } = s;
      const ih = h - 2 * f;
      const area = 2 * b * f + w * ih;
      const moments = { inertia: box(b, h) - box(b - w, ih), across: 2 * box(f, b) + box(ih, w) };
      return {
        area,
        ...moments,
        outer: h / 2,
        shear: area / (w * ih),
        middle: w,
        clear: ih,
        thickness: Math.min(f, w),
      };
    }
  }
}

/** The section less a round hole at mid-height through it, across the vehicle: a pin's. Diameter in m; stress concentration is not in it. */
export function withHole(figures: SectionFigures, diameter: number): SectionFigures {
  const area = figures.area - figures.middle * diameter;
  // at mid-height the shear flow runs beside the hole: whole force over what is left of the height
  const shear = (figures.shear * area * figures.clear) / (figures.area * (figures.clear - diameter));
  return { ...figures, area, inertia: figures.inertia - box(figures.middle, diameter), shear };
}
