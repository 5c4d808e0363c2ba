// Made once for all tests: the demo, the demo with a plan adopted, and an empty collection.
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const program = resolve(process.env['MITEFALL_BIN'] ?? '../build/release/mitefall');
export const screens = resolve('../build/screens');

export default function makeCollections(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'mitefall-e2e-'));
  const file = (name: string): string => join(folder, `${name}.mitefall`);
  const run = (name: string, ...words: string[]): void => {
    execFileSync(program, ['-f', file(name), ...words], { stdio: ['ignore', 'ignore', 'inherit'] });
  };
  run('empty', 'new');
  run('demo', 'demo');
  copyFileSync(file('demo'), file('adopted'));
  run('adopted', 'plan', '--adopt', 'recommended');
  mkdirSync(screens, { recursive: true });
  process.env['MITEFALL_E2E'] = folder;
  return () => rmSync(folder, { recursive: true });
}
