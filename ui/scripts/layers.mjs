// Every import under src/ must be allowed by src/LAYERS; folders form a straight line, and each says what it is for.
// layers.mjs [FOLDER]: another folder than src, for the checker's own test.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { argv, exit } from 'node:process';
import { fileURLToPath } from 'node:url';

const source = resolve(argv[2] ?? fileURLToPath(new URL('../src', import.meta.url)));
const helpers = join(dirname(source), 'test');
const top = 'top';
const faults = [];

/** Which folders each may import; its own it always may. */
function readLayers() {
  const allowed = new Map();
  for (const [index, line] of readFileSync(join(source, 'LAYERS'), 'utf8').split('\n').entries()) {
    const [name, rest] = line
      .replace(/#.*/, '')
      .split(':')
      .map((part) => part.trim());
    if (!name) continue;
    const others = (rest ?? '').split(/\s+/).filter(Boolean);
    for (const other of others)
      if (!allowed.has(other))
        faults.push(`LAYERS:${index + 1}: ${name} may import only folders named above it, not ${other}`);
    allowed.set(name, new Set(others));
  }
  return allowed;
}

/** The folder a file belongs to, and of features also which one: "features/mix". */
function homeOf(file) {
  const [folder, feature] = relative(source, file).split(sep);
  if (feature === undefined && !allowed.has(folder)) return { folder: top, part: top };
  return { folder, part: folder === 'features' ? `${folder}/${feature}` : folder };
}

function whyNot(allowed, file, target) {
  const from = homeOf(file);
  if (relative(source, target).startsWith('..')) {
    const isHelper = file.endsWith('.test.ts') && target.startsWith(helpers + sep);
    return isHelper ? null : `${from.part} may not import what is outside src`;
  }
  const to = homeOf(target);
  if (from.part === to.part || from.folder === top) return null;
  if (from.folder === to.folder)
    return `${from.part} may not import ${to.part}: what two features use is in kit or domain`;
  return allowed.get(from.folder)?.has(to.folder) ? null : `${from.part} may not import ${to.part}`;
}

const allowed = readLayers();
const files = readdirSync(source, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.(ts|svelte)$/.test(entry.name))
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
  .sort();
for (const folder of new Set(files.map((file) => homeOf(file).folder)))
  if (folder !== top && !allowed.has(folder)) faults.push(`${folder}: not named in LAYERS`);

for (const folder of new Set(files.map(dirname)))
  if (folder !== source && !existsSync(join(folder, 'README.md')))
    faults.push(`${relative(source, folder)}: has no README.md`);

let count = 0;
for (const file of files) {
  const text = readFileSync(file, 'utf8');
  for (const found of text.matchAll(/\b(?:from|import)\s*\(?\s*['"](\.{1,2}\/[^'"]*)['"]/g)) {
    count += 1;
    const why = whyNot(allowed, file, resolve(dirname(file), found[1]));
    const line = text.slice(0, found.index).split('\n').length;
    if (why) faults.push(`${relative(source, file)}:${line}: ${why}`);
  }
}
for (const fault of faults) console.error(fault);
console.log(`layers: ${count} imports checked, ${faults.length} faults`);
exit(faults.length > 0 ? 1 : 0);
