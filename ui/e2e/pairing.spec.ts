// A phone of the home network: let in with the code, and only with it.
import { expect, open, test, told } from './served';

test.use({ collection: 'adopted', shared: true });

test('a phone is paired with the code and then sees what the computer sees', async ({
  page,
  served,
  another,
}) => {
  await open(page, served, 'settings');
  await expect(page.getByRole('img', { name: /QR code/ })).toBeVisible();
  const code = /#pair=(\w+)/.exec(await page.getByText(/#pair=/).innerText())?.[1];
  expect(code).toBeTruthy();

  const phone = await another();
  await phone.goto(`${served.home}/`);
  await expect(phone.getByRole('heading', { name: 'Pair this device' })).toBeVisible();
  await phone.getByLabel('Code').fill('wrong');
  await phone.getByRole('button', { name: 'Pair' }).click();
  await expect(phone.getByRole('alert')).toBeVisible();

  await phone.goto(`${served.home}/#pair=${code}`);
  await told(phone, /Paired\./);
  await expect(phone.getByRole('heading', { name: 'Situation' })).toBeVisible();
  await phone.goto(`${served.home}/#/settings`);
  await expect(phone.getByText('Sharing is switched on the computer that runs Mitefall.')).toBeVisible();

  await phone.goto(`${served.home}/#/today`);
  await phone.getByRole('button', { name: /^Done: Mix/ }).click();
  await open(page, served, 'today');
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
});
