import { svelte } from '@sveltejs/vite-plugin-svelte';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig, type Plugin } from 'vite';

/** Writes the service worker beside the first page: which files it keeps is known once they are made. */
const serviceWorker = (): Plugin => ({
  name: 'service-worker',
  apply: 'build',
  writeBundle({ dir = 'dist' }, bundle) {
    const made = Object.keys(bundle).filter((name) => name !== 'index.html');
    const files = ['/', '/favicon.svg', ...made.map((name) => `/${name}`)];
    const page = readFileSync(join(dir, 'index.html'));
    const version = createHash('sha256').update(page).update(files.join()).digest('hex').slice(0, 16);
    const source = readFileSync(new URL('./src/shell/service-worker.js', import.meta.url), 'utf8')
      .replace('= FILES', `= ${JSON.stringify(files)}`)
      .replace('+ VERSION', `+ ${JSON.stringify(version)}`);
    writeFileSync(join(dir, 'sw.js'), source);
  },
});

export default defineConfig({
  plugins: [svelte(), serviceWorker()],
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // A twentieth smaller than what esbuild leaves.
    minify: 'terser',
    terserOptions: { compress: { passes: 2 } },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:8640' } },
});
