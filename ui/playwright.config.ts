import { defineConfig } from '@playwright/test';

const browser = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
const phone = { width: 390, height: 844 };
const desk = { width: 1280, height: 800 };

// Every screen is opened once and looked at in both themes and both sizes; the whole job is done in both, but not in all
// four pairs: that is for MITEFALL_E2E_ALL=1.
const all = process.env['MITEFALL_E2E_ALL'] === '1';
const only = (tests: RegExp): RegExp => (all ? /^(?!.*screens).*\.spec/ : tests);

export default defineConfig({
  testDir: 'e2e',
  globalSetup: './e2e/collections.ts',
  outputDir: '../build/e2e',
  fullyParallel: true,
  workers: 2,
  // Limits for what hangs, not for what is slow: a machine may build at the same time. A test is right at the first try.
  retries: 0,
  timeout: 900_000,
  expect: { timeout: 120_000 },
  reporter: [['list']],
  use: {
    actionTimeout: 120_000,
    launchOptions: { executablePath: browser, args: ['--no-sandbox'] },
    trace: 'retain-on-failure',
  },
  projects: [
    {
      name: 'phone-light',
      testMatch: /\.spec/,
      use: { viewport: phone, colorScheme: 'light', hasTouch: true },
    },
    {
      name: 'desk-light',
      testMatch: only(/home|tub-by-tub|animal-checks|bench|notices|names|late\.spec/),
      use: { viewport: desk, colorScheme: 'light' },
    },
    { name: 'desk-dark', testMatch: only(/job|start/), use: { viewport: desk, colorScheme: 'dark' } },
    ...(all
      ? [
          {
            name: 'phone-dark',
            testMatch: only(/spec/),
            use: { viewport: phone, colorScheme: 'dark' as const, hasTouch: true },
          },
        ]
      : []),
  ],
});
