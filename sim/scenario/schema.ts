import { z } from 'zod';
import { nameOf } from '../../shared/schema/quantity.ts';
import { actsOn, scenarioSchema } from '../../shared/schema/scenario.ts';
import { partFields } from '../driveline/fields.ts';
import { partKinds } from '../driveline/registry.ts';
import { elementKinds } from '../elements/registry.ts';
import { groundKinds } from '../ground/registry.ts';
import { memberKinds } from '../members/registry.ts';
import { criterionKinds } from '../report/criteria/registry.ts';
import { steeringField } from '../steering/fields.ts';
import { strengthFields } from '../strength/fields.ts';
import { strengthKinds } from '../strength/registry.ts';
import { winchField } from '../winch/fields.ts';

/** What all registered kinds have: a name for the document, and a strict object of their own fields. */
interface Kind {
  readonly kind: string;
  readonly title: string;
  readonly fields: z.ZodObject;
}

type ShapeOf<S> = S extends z.ZodObject<infer Shape> ? Shape : never;

/** Schema of one kind as it stands in a document: common fields, then the kind's own. */
type EntryOf<K, Common extends z.ZodRawShape> = K extends Kind
  ? z.ZodObject<Common & { kind: z.ZodLiteral<K['kind']> } & ShapeOf<K['fields']>, z.core.$strict>
  : never;

type EntriesOf<Kinds extends readonly Kind[], Common extends z.ZodRawShape> = {
  -readonly [I in keyof Kinds]: EntryOf<Kinds[I], Common>;
};

/** Checks across fields (`superRefine`) go along: a plain spread of the shape would lose them. */
function entry(kind: Kind, common: z.ZodRawShape): z.ZodObject {
  const { name, ...rest } = common;
  const literal = z.literal(kind.kind).meta({ description: `${kind.title}.` });
  const whole = z.strictObject({
    ...(name === undefined ? {} : { name }),
    kind: literal,
    ...rest,
    ...kind.fields.shape,
  });
  const checks = kind.fields._zod.def.checks ?? [];
  const { eitherOf } = kind.fields.meta() ?? {};
  return (checks.length === 0 ? whole : whole.check(...(checks as never[]))).meta({
    title: kind.title,
    ...(eitherOf === undefined ? {} : { eitherOf }),
  });
}

/** A union over `kind` of all registered kinds of one sort. */
function anyOf<const Kinds extends readonly Kind[], Common extends z.ZodRawShape>(
  kinds: Kinds,
  common: Common,
  says: string,
) {
  const entries = kinds.map((kind) => entry(kind, common)) as unknown as EntriesOf<Kinds, Common>;
  return z
    .discriminatedUnion('kind', entries as never)
    .meta({ description: says }) as unknown as z.ZodDiscriminatedUnion<
    EntriesOf<Kinds, Common> & readonly z.core.$ZodTypeDiscriminable[],
    'kind'
  >;
}

const count = z
  .int()
  .min(1)
  .max(1000)
  .default(1)
  .meta({ description: 'Equal ones side by side: their efforts add.', unit: '1' });
const title = z.string().min(1).max(60).optional().meta({ description: 'Label of this piece on the ruler.' });

/**
 * The schema of a scenario document over all registered kinds of members, elements, grounds and criteria. Input: what
 * a person writes; output: SI figures with all defaults filled in. A new kind joins by its line in a registry.
 */
export const scenarioDocument = scenarioSchema({
  member: anyOf(
    memberKinds,
    { name: nameOf('Name of the member.') },
    'A suspension member; `kind` says which.',
  ),
  element: anyOf(
    elementKinds,
    { name: nameOf('Name of the element.'), on: actsOn, count },
    'A force element; `kind` says which. Every figure is for ONE of them.',
  ),
  ground: anyOf(groundKinds, { title }, 'A piece of ground; `kind` says which.'),
  part: anyOf(
    partKinds,
    { name: nameOf('Name of the part.'), ...partFields },
    'A part of the drive line; `kind` says which. Every figure is for ONE of them.',
  ),
  winch: winchField,
  steering: steeringField,
  strength: anyOf(strengthKinds, strengthFields, 'Figures of a part that may give way; `kind` says what.'),
  criterion: anyOf(criterionKinds, {}, 'Something that the run must hold to; `kind` says what.'),
});

/** A scenario in SI with all defaults filled in: what the rest of the simulator reads. */
export type Scenario = z.output<typeof scenarioDocument>;

/** A scenario as a person writes it. */
export type ScenarioInput = z.input<typeof scenarioDocument>;
