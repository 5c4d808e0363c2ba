// What the core says is shown, and nothing is read out of it. Its sentences are a type without the methods that take a
// text apart (src/contract/sentence.ts); a regular expression would get round that. So texts are taken apart in the
// files of src/READING only, each named with what it reads. reading.mjs [FOLDER]: another folder than src.
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { argv, exit } from 'node:process';
import { fileURLToPath } from 'node:url';
import { parse } from 'svelte/compiler';

const source = resolve(argv[2] ?? fileURLToPath(new URL('../src', import.meta.url)));
const methods = new Set(
  'split match matchAll startsWith endsWith search replace replaceAll exec test'.split(' '),
);

/** Files that read texts, with what they read. */
function readNamed() {
  const lines = readFileSync(join(source, 'READING'), 'utf8').split('\n');
  return new Map(
    lines
      .map((line) => line.replace(/^#.*/, '').split(/\s*:\s*/))
      .filter(([file]) => file?.trim())
      .map(([file, what]) => [file.trim(), what?.trim() ?? '']),
  );
}

/** What in a syntax tree takes a text apart, with its place. */
function* readings(node) {
  if (Array.isArray(node)) for (const one of node) yield* readings(one);
  if (node === null || typeof node !== 'object' || Array.isArray(node)) return;
  if (node.type === 'Literal' && node.regex) yield [node.start, `/${node.regex.pattern}/`];
  if (node.type === 'NewExpression' && node.callee.name === 'RegExp') yield [node.start, 'RegExp'];
  if (node.type === 'CallExpression' && methods.has(node.callee.property?.name))
    yield [node.callee.property.start, `.${node.callee.property.name}()`];
  for (const [key, value] of Object.entries(node)) if (key !== 'parent') yield* readings(value);
}

function treeOf(file, text) {
  const opening = '<script lang="ts">\n';
  return file.endsWith('.svelte')
    ? { tree: parse(text, { modern: true }), shift: 0, text }
    : { tree: parse(`${opening}${text}\n</script>`, { modern: true }), shift: opening.length, text };
}

const named = readNamed();
const faults = [];
let count = 0;
for (const entry of readdirSync(source, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile() || !/\.(ts|svelte)$/.test(entry.name) || entry.name.endsWith('.test.ts')) continue;
  const file = join(entry.parentPath ?? entry.path, entry.name);
  const name = relative(source, file).split(sep).join('/');
  const { tree, shift, text } = treeOf(file, readFileSync(file, 'utf8'));
  const found = [...readings([tree.module, tree.instance, tree.fragment])];
  count += found.length;
  if (named.has(name)) {
    if (!named.get(name)) faults.push(`READING: ${name}: what it reads is not told`);
    if (found.length === 0) faults.push(`READING: ${name} takes no text apart any more`);
    named.delete(name);
  } else
    for (const [at, what] of found) {
      const line = text.slice(0, at - shift).split('\n').length;
      faults.push(`${name}:${line}: ${what}: only files named in READING take a text apart`);
    }
}
for (const name of named.keys()) faults.push(`READING: there is no ${name}`);
for (const fault of faults) console.error(fault);
console.log(`reading: ${count} places checked, ${faults.length} faults`);
exit(faults.length > 0 ? 1 : 0);
