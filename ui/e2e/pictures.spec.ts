// The pictures of README.md and of docs/guide.md, made when they are asked for: MITEFALL_PICTURES=1 npx playwright test e2e/pictures.spec.ts --project=phone-light
import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, long, open, settled, test } from './served';

const folder = resolve('../docs/pictures');
const mostBytes = 150_000;

test.skip(process.env['MITEFALL_PICTURES'] !== '1', 'asked for by MITEFALL_PICTURES=1');

test.describe('the telephone', () => {
  test.use({ collection: 'empty' });
  test('shows what to do in the next ten minutes', async ({ page, served }) => {
    await open(page, served, 'ten-minutes');
    await page.getByRole('button', { name: /^Done: Lid on/ }).click();
    const path = `${folder}/telephone.png`;
    await page.screenshot({ path });
    expect(statSync(path).size).toBeLessThan(mostBytes);
  });
});

test.describe('the plan', () => {
  test.use({ collection: 'demo', viewport: { width: 1000, height: 760 } });
  test('shows what is recommended, with the chance that it works', async ({ page, served }) => {
    await open(page, served, 'plan/choose');
    await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
    await settled(page);
    const path = `${folder}/plan.png`;
    await page.screenshot({ path });
    expect(statSync(path).size).toBeLessThan(mostBytes);
  });
});

test.describe('the guide', () => {
  test.use({ collection: 'adopted', viewport: { width: 560, height: 900 } });
  test('shows why a course has its days', async ({ page, served }) => {
    await open(page, served, 'plan/now');
    const why = page.locator('section', { has: page.getByRole('heading', { name: 'Why these days' }) });
    await why.getByRole('img').first().waitFor(long);
    await settled(page);
    const path = `${folder}/why-these-days.png`;
    await why.screenshot({ path });
    expect(statSync(path).size).toBeLessThan(mostBytes);
  });
});
