import { defineConfig } from 'vitest/config';

export default defineConfig({ test: { include: ['{src,scripts}/**/*.test.ts'], environment: 'node' } });
