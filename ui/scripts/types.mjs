// Writes the TypeScript types of every answer from its JSON Schema, so that the contract is described once.
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { compile } from 'json-schema-to-typescript';

const schemas = new URL('../../docs/schemas/', import.meta.url);
const contract = new URL('../src/contract/', import.meta.url);

const pascal = (name) => name.replace(/(^|-)(.)/g, (_, __, letter) => letter.toUpperCase());

await mkdir(contract, { recursive: true });
for (const file of (await readdir(schemas)).filter((name) => name.endsWith('.schema.json'))) {
  const name = file.replace('.schema.json', '');
  const schema = { ...JSON.parse(await readFile(new URL(file, schemas), 'utf8')), title: pascal(name) };
  const banner = `// Generated from docs/schemas/${file}; not to be edited.`;
  const types = await compile(schema, pascal(name), { bannerComment: banner, format: false });
  await writeFile(new URL(`${name}.ts`, contract), types);
}
