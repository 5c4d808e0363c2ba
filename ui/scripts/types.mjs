// Writes the TypeScript types of every answer from its JSON Schema, so that the contract is described once.
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';

const schemas = new URL('../../docs/schemas/', import.meta.url);
const contract = new URL('../src/contract/', import.meta.url);

/** Keys whose texts are sentences: shown, and not read (src/contract/sentence.ts). */
const sentences = new Set([
  ...['text', 'message', 'what', 'limit', 'remedy', 'reason', 'reasons', 'cannot_measure', 'meaning', 'how'],
  ...['common', 'own'],
  ...['said', 'exposed_by', 'plan', 'citation', 'source'],
]);
/** What is on record is in the words of the keeper, and is written back as it is. */
const inKeepersWords = new Set(['journal']);

const isText = ({ type, enum: choices, pattern }) => [type].flat().includes('string') && !choices && !pattern;
const asSentence = (schema) => ({
  ...schema,
  tsType: [schema.type].flat().includes('null') ? 'Sentence | null' : 'Sentence',
});

/** The schema with the type of its sentences. */
function withSentences(schema, key = '') {
  if (Array.isArray(schema)) return schema.map((one) => withSentences(one));
  if (schema === null || typeof schema !== 'object') return schema;
  if (sentences.has(key) && isText(schema)) return asSentence(schema);
  return Object.fromEntries(
    Object.entries(schema).map(([name, value]) => [
      name,
      ['properties', 'definitions'].includes(name)
        ? Object.fromEntries(Object.entries(value).map(([one, inner]) => [one, withSentences(inner, one)]))
        : withSentences(value, name === 'items' ? key : ''),
    ]),
  );
}

const pascal = (name) => name.replace(/(^|-)(.)/g, (_, __, letter) => letter.toUpperCase());

/** The closed choices of the records (docs/schemas/vocabulary.schema.json), as lists and as types. */
const choices = 'vocabulary.schema.json';
async function writeChoices() {
  const { definitions } = JSON.parse(await readFile(new URL(choices, schemas), 'utf8'));
  const lists = Object.entries(definitions)
    .filter(([, { enum: texts }]) => texts)
    .map(([key, { description, enum: texts }]) => {
      const name = pascal(key.replaceAll('_', '-'));
      const list = `${name[0].toLowerCase()}${name.slice(1)}Choices`;
      const values = texts.map((text) => `'${text}'`).join(', ');
      return `/** ${description} */\nexport const ${list} = [${values}] as const;\nexport type ${name} = (typeof ${list})[number];\n`;
    });
  const banner = `// Generated from docs/schemas/${choices}; not to be edited.`;
  await writeFile(new URL('vocabulary.ts', contract), [banner, ...lists].join('\n'));
}

await mkdir(contract, { recursive: true });
await writeChoices();
const answers = (await readdir(schemas)).filter((name) => name.endsWith('.schema.json') && name !== choices);
for (const file of answers) {
  const name = file.replace('.schema.json', '');
  const described = JSON.parse(await readFile(new URL(file, schemas), 'utf8'));
  const schema = {
    ...(inKeepersWords.has(name) ? described : withSentences(described)),
    title: pascal(name),
  };
  const banner = `// Generated from docs/schemas/${file}; not to be edited.`;
  const types = await compile(schema, pascal(name), {
    bannerComment: banner,
    cwd: fileURLToPath(schemas),
    format: false,
  });
  const isUsed = /\bSentence\b/.test(types);
  await writeFile(
    new URL(`${name}.ts`, contract),
    isUsed ? `import type { Sentence } from './sentence';\n${types}` : types,
  );
}
