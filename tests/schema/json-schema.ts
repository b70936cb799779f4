/** Makes the JSON Schema of scenario documents, for editors, from the zod schema that reads them. */
import { z } from 'zod';
import { type Dimension, dimensions } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';

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
  json.examples = [row.example];
}

/** The schema as a plain object, draft 2020-12. Input side: units as text allowed, fields with a standard value optional. */
export function jsonSchema(): Json {
  return z.toJSONSchema(scenarioDocument, {
    io: 'input',
    target: 'draft-2020-12',
    override: ({ zodSchema, jsonSchema: json }) => {
      const def = zodSchema._zod.def as { type: string; defaultValue?: unknown };
      if (json.dimension !== undefined) figure(json as Json);
      if (def.type === 'default' && def.defaultValue !== undefined) json.default = def.defaultValue as never;
      if (json.description === '') delete json.description;
    },
  }) as Json;
}

/** The text of the committed file. */
export const jsonSchemaText = () => `${JSON.stringify(jsonSchema(), null, 2)}\n`;
