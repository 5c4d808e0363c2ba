import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

export default defineConfig({
  plugins: [svelte()],
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
