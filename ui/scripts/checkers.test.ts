// What the two checkers of imports and of reading find fault with, on a small tree of their own.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

let source = '';
beforeEach(() => {
  source = join(mkdtempSync(join(tmpdir(), 'mitefall-ui-')), 'src');
});
afterEach(() => rmSync(dirname(source), { recursive: true }));

function found(checker: string, files: Record<string, string>): { faults: string[]; code: number | null } {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(source, name)), { recursive: true });
    writeFileSync(join(source, name), text);
  }
  const script = fileURLToPath(new URL(`${checker}.mjs`, import.meta.url));
  const { status, stderr } = spawnSync(process.execPath, [script, source], { encoding: 'utf8' });
  return { faults: stderr.split('\n').filter(Boolean), code: status };
}

describe('the checker of imports', () => {
  const sound = {
    LAYERS: '# folder : others\nwords :\nkit : words\nfeatures : words kit\n',
    ...{ 'words/README.md': '', 'kit/README.md': '', 'features/mix/README.md': '' },
    'words/index.ts': 'export const a = 1;\n',
    'kit/Field.svelte': "<script>\n  import { a } from '../words';\n</script>\n{a}\n",
    'features/mix/Mix.svelte':
      "<script>\n  import Field from '../../kit/Field.svelte';\n</script>\n<Field />\n",
    'features/mix/mix.test.ts': "import { b } from '../../../test/units';\n",
    'App.svelte': "<script>\n  import Mix from './features/mix/Mix.svelte';\n</script>\n<Mix />\n",
  };

  it('lets pass what the table allows', () => {
    expect(found('layers', sound)).toEqual({ faults: [], code: 0 });
  });

  it.each([
    ['words/b.ts', "\nexport * from '../kit/b';", 'words/b.ts:2: words may not import kit'],
    ['kit/b.ts', "import '../features/mix/b';", 'kit/b.ts:1: kit may not import features/mix'],
    ['kit/b.ts', "const b = await import('../App.svelte');", 'kit/b.ts:1: kit may not import top'],
    [
      'features/plan/b.ts',
      "import type { B } from '../mix/b';",
      'features/plan/b.ts:1: features/plan may not import features/mix',
    ],
    [
      'kit/b.ts',
      "import { b } from '../../test/units';",
      'kit/b.ts:1: kit may not import what is outside src',
    ],
    ['parts/b.ts', 'export const b = 1;', 'parts: not named in LAYERS'],
  ])('finds the fault in %s: %s', (name, text, fault) => {
    const { faults, code } = found('layers', {
      ...sound,
      [join(dirname(name), 'README.md')]: '',
      [name]: text,
    });
    expect(code).toBe(1);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain(fault);
  });

  it('wants to know what a folder is for', () => {
    const { faults } = found('layers', { ...sound, 'features/plan/Plan.svelte': '' });
    expect(faults).toEqual(['features/plan: has no README.md']);
  });

  it('wants a straight line of folders', () => {
    const LAYERS = 'words : kit\nkit : words\nfeatures : words kit\n';
    const { faults } = found('layers', { ...sound, LAYERS });
    expect(faults).toEqual(['LAYERS:1: words may import only folders named above it, not kit']);
  });
});

describe('the checker of reading', () => {
  const sound = {
    READING: '# file : what it reads\nformat/day.ts : days\n',
    'format/day.ts': "export const year = (day: string) => day.split('-')[0];\n",
    'kit/Field.svelte': '<script lang="ts">\n  let { a }: { a: string } = $props();\n</script>\n{a}\n',
  };

  it('lets the files pass that are named', () => {
    expect(found('reading', sound)).toEqual({ faults: [], code: 0 });
  });

  it.each([
    [
      '<script lang="ts">\n  const b = (a: string) => /^it weighs/.test(a);\n</script>',
      'kit/b.svelte:2: /^it weighs/',
    ],
    [
      '<script lang="ts">\n  let a = "";\n</script>\n{#if a.startsWith("it")}b{/if}',
      'kit/b.svelte:4: .startsWith()',
    ],
    ['<script lang="ts">\n  const b = new RegExp("b");\n</script>', 'kit/b.svelte:2: RegExp'],
  ])('finds %s', (text, fault) => {
    const { faults, code } = found('reading', { ...sound, 'kit/b.svelte': text });
    expect(code).toBe(1);
    expect(faults.join('\n')).toContain(fault);
  });

  it('wants to know what is read, and by whom', () => {
    const { faults } = found('reading', {
      ...sound,
      READING: 'format/day.ts :\nkit/Field.svelte : fields\nkit/gone.ts : nothing\n',
    });
    expect(faults).toEqual([
      'READING: format/day.ts: what it reads is not told',
      'READING: kit/Field.svelte takes no text apart any more',
      'READING: there is no kit/gone.ts',
    ]);
  });
});
