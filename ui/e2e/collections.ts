// Made once for all tests: the demo, the demo with a plan adopted, one adopted a week ago and left alone since with a
// water dish out, and an empty collection.
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
  const ago = (days: number): string[] => [
    '--today',
    new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10),
  ];
  run('late', ...ago(7), 'demo');
  run('late', ...ago(7), 'plan', '--adopt', 'recommended');
  run('late', ...ago(6), 'record', 'water', 'a-02', 'out');
  mkdirSync(screens, { recursive: true });
  process.env['MITEFALL_E2E'] = folder;
  return () => rmSync(folder, { recursive: true });
}
