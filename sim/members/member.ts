import type { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { BodyPoint, Coordinate, Member } from '../mechanism/mechanism.ts';

/**
 * What a member kind builds with. Names are resolved by the compiler: `on` may name any member declared anywhere in
 * the document (the compiler expands parents first) or 'chassis'.
 */
export interface MemberBuilder {
  /** Adds a body below the body of member `on` and returns its index. Its mass comes from mass items on the member. */
  body(name: string, on: string): number;
  hinge(name: string, child: number, anchor: Vec2, sign: 1 | -1): Coordinate;
  slide(name: string, child: number, axis: Vec2, anchor: Vec2): Coordinate;
  free(name: string, child: number): void;
  rod(name: string, a: BodyPoint, b: BodyPoint): void;
  /** Body index of a member, or of 'chassis'. */
  bodyOf(on: string): number;
  /**
   * Adds the member's stops on its coordinate. `bump`, `droop`: travel from the drawn position to each stop, m or rad,
   * both positive, undefined for no stop. `stiffness`: N/m or N·m/rad, a fitting one when undefined. `lever`: m between
   * the coordinate and the wheels (1 for travel in m): it turns the fitting stiffness into one per radian.
   */
  stops(coordinate: Coordinate, limits: StopLimits, lever: number): void;
  /** Reports a problem with a field of this member: path relative to the member. */
  problem(path: string, message: string, hint?: string): void;
}

/** Where a member's stops lie and how hard they are. */
export interface StopLimits {
  readonly bump?: number | undefined;
  readonly droop?: number | undefined;
  readonly stiffness?: number | undefined;
}

/** One kind of suspension member: its words, and how it becomes bodies, joints and rods. One file; one registry line. */
export interface MemberKind<S extends z.ZodObject = z.ZodObject> {
  readonly kind: string;
  readonly title: string;
  readonly source: string;
  /** Strict object of the kind's own fields, besides name and kind; `on` included where the kind has one parent. */
  readonly fields: S;
  /** Names that must be expanded before this one. */
  needs(params: z.output<S>): readonly string[];
  expand(
    name: string,
    params: z.output<S>,
    build: MemberBuilder,
  ): Omit<Member, 'name' | 'kind' | 'bump' | 'droop'>;
  readonly sample: z.input<S>;
}

/** Declares a member kind; keeps the type of its fields. */
export function defineMember<S extends z.ZodObject, const N extends string>(
  kind: MemberKind<S> & { readonly kind: N },
): MemberKind<S> & { readonly kind: N } {
  return kind;
}
