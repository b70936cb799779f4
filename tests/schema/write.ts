/** Writes shared/schema/scenario.schema.json: `npm run schema`, after any change to a registered kind or a field. */
import { writeFileSync } from 'node:fs';
import { jsonSchemaText } from './json-schema.ts';

writeFileSync(new URL('../../shared/schema/scenario.schema.json', import.meta.url), jsonSchemaText());
