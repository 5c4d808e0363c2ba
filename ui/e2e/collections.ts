// Made once for all tests: the demo, the demo with a plan adopted, one adopted a week ago and left alone since with a
// water dish out, and an empty collection.
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const program = resolve(process.env['MITEFALL_BIN'] ?? '../build/release/mitefall');
export const screens = resolve('../build/screens');

const day = 86_400_000;
/** The day so many days before another, or before today. */
export const daysAgo = (days: number, from: string | number = Date.now()): string =>
  new Date(new Date(from).getTime() - days * day).toISOString().slice(0, 10);

/** A command of the program on a collection. */
export function run(file: string, ...words: string[]): void {
  execFileSync(program, ['-f', file, ...words], { stdio: ['ignore', 'ignore', 'inherit'] });
}

export default function makeCollections(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'mitefall-e2e-'));
  const file = (name: string): string => join(folder, `${name}.mitefall`);
  run(file('empty'), 'new');
  run(file('demo'), 'demo');
  copyFileSync(file('demo'), file('adopted'));
  run(file('adopted'), 'plan', '--adopt', 'recommended');
  const ago = (days: number): string[] => ['--today', daysAgo(days)];
  run(file('late'), ...ago(7), 'demo');
  run(file('late'), ...ago(7), 'plan', '--adopt', 'recommended');
  run(file('late'), ...ago(6), 'record', 'water', 'a-02', 'out');
  mkdirSync(screens, { recursive: true });
  process.env['MITEFALL_E2E'] = folder;
  return () => rmSync(folder, { recursive: true });
}
