/** Writes the JSON Schemas of documents: `npm run schema`, after any change to a registered kind or a field. */
import { writeFileSync } from 'node:fs';
import { jsonSchemaText, studySchemaText } from './json-schema.ts';

writeFileSync(new URL('../../shared/schema/scenario.schema.json', import.meta.url), jsonSchemaText());
writeFileSync(new URL('../../shared/schema/study.schema.json', import.meta.url), studySchemaText());
