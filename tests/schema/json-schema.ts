/** Makes the JSON Schemas of documents, for editors, from the zod schemas that read them. */
import { z } from 'zod';
import { type Dimension, dimensions } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { studyDocument } from '../../sim/tuning/document.ts';

type Json = Record<string, unknown>;

/** Keys of JSON Schema for the limits of `quantity`. They hold for numbers, which are SI; text is checked on reading. */
const limitKeys = {
  above: 'exclusiveMinimum',
  least: 'minimum',
  below: 'exclusiveMaximum',
  most: 'maximum',
} as const;

/** A figure: a number in SI within its limits, or text that begins like a number with a unit. */
function figure(json: Json): void {
  const row = dimensions[json.dimension as Dimension];
  for (const [name, key] of Object.entries(limitKeys)) {
    if (json[name] !== undefined) json[key] = json[name];
    delete json[name];
  }
  json.type = ['number', 'string'];
  json.pattern = '^\\s*[+\\-−]?\\s*(\\d|\\.\\d)';
  json.examples = [row.example, ...spreadsOf(row.example)];
}

/** A figure like this one with a spread: the middle and ±, a range, measured repeats. */
function spreadsOf(example: string): string[] {
  const [, number = '', unit = ''] = /^(\S+) (.*)$/.exec(example) ?? [];
  const near = (factor: number) => String(Number((Number(number) * factor).toPrecision(3)));
  const middle = unit === '%' ? `${Number(number) / 100} ± ${Number(number) / 1000}` : `${example} ± 5 %`;
  return [
    middle,
    `${near(0.95)} .. ${near(1.05)} ${unit}`,
    `${near(0.98)}; ${near(1.01)}; ${near(1.02)} ${unit}`,
  ];
}

/** The schema as a plain object, draft 2020-12. Input side: units as text allowed, fields with a standard value optional. */
export function jsonSchema(document: z.ZodType = scenarioDocument): Json {
  return z.toJSONSchema(document, {
    io: 'input',
    target: 'draft-2020-12',
    override: ({ zodSchema, jsonSchema: json }) => {
      const def = zodSchema._zod.def as { type: string; defaultValue?: unknown };
      if (json.dimension !== undefined) figure(json as Json);
      if (def.type === 'default' && def.defaultValue !== undefined) json.default = def.defaultValue as never;
      if (json.description === '') delete json.description;
      // For those who fill it in by hand; the checks are in the code.
      delete json.eitherOf;
    },
  }) as Json;
}

/** The text of a committed file. */
const textOf = (document: z.ZodType) => `${JSON.stringify(jsonSchema(document), null, 2)}\n`;
export const jsonSchemaText = () => textOf(scenarioDocument);
export const studySchemaText = () => textOf(studyDocument);
