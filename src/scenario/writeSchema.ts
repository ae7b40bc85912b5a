/** Run by hand after a schema changed: npx tsx src/scenario/writeSchema.ts && npx biome format --write public/schema */
import { mkdirSync, writeFileSync } from 'node:fs';
import { jsonSchemaFiles } from './jsonSchemas.ts';

const folder = new URL('../../public/schema/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries(jsonSchemaFiles())) writeFileSync(new URL(name, folder), text);
