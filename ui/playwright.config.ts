import { defineConfig } from '@playwright/test';

const browser = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
const phone = { width: 390, height: 844 };
const desk = { width: 1280, height: 800 };

/** What does not depend on the size of the screen or its colours. */
const once = /together|start/;

export default defineConfig({
  testDir: 'e2e',
  globalSetup: './e2e/collections.ts',
  outputDir: '../build/e2e',
  fullyParallel: true,
  workers: 2,
  timeout: 180_000,
  expect: { timeout: 30_000 },
  reporter: [['list']],
  use: {
    actionTimeout: 30_000,
    launchOptions: { executablePath: browser, args: ['--no-sandbox'] },
    trace: 'retain-on-failure',
  },
  projects: [
    { name: 'phone-light', use: { viewport: phone, colorScheme: 'light', hasTouch: true } },
    { name: 'phone-dark', testIgnore: once, use: { viewport: phone, colorScheme: 'dark', hasTouch: true } },
    { name: 'desk-light', testIgnore: once, use: { viewport: desk, colorScheme: 'light' } },
    { name: 'desk-dark', testIgnore: /together/, use: { viewport: desk, colorScheme: 'dark' } },
  ],
});
