// Things of a tub: noted on its page, each freed of mites by what suits it.
import { expect, look, open, test } from './served';

test('a branch goes to the freezer, a cable is never washed', async ({ page, served }, info) => {
  await open(page, served, 'enclosure/a-02');
  const kind = page.getByLabel('Another thing');
  const add = page.getByRole('button', { name: 'Add', exact: true });
  const branch = page.getByLabel('Branch: how it is freed of mites');
  const cable = page.getByLabel('Cable or sensor: how it is freed of mites');
  await kind.selectOption({ label: 'Branch' });
  await add.click();
  await expect(branch).toHaveValue('dry-heat');
  await kind.selectOption({ label: 'Cable or sensor' });
  await add.click();
  await expect(cable.locator('option')).toHaveText(['Spray and air', 'Bag and throw away']);
  await branch.selectOption({ label: 'Freezer' });
  await expect(branch).toHaveValue('freeze');
  await look(page, info, 'things');
  await page.getByRole('button', { name: 'Branch is gone' }).click();
  await expect(branch).toHaveCount(0);
});
