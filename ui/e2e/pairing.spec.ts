// A phone of the home network: let in with the code, and only with it.
import type { Page } from '@playwright/test';
import { expect, look, open, test, told } from './served';

test.use({ collection: 'adopted', shared: true });

test('a phone is paired with the code and then sees what the computer sees', async ({
  page,
  served,
  another,
}) => {
  await open(page, served, 'settings');
  await expect(page.getByRole('img', { name: /QR code/ })).toBeVisible();
  const code = /#pair=([\w-]+)/.exec(await page.getByText(/#pair=/).innerText())?.[1];
  expect(code).toBeTruthy();

  const phone = await another();
  await phone.goto(`${served.home}/`);
  await expect(phone.getByRole('heading', { name: 'Pair this device' })).toBeVisible();
  await phone.getByLabel('Code').fill('wrong');
  await phone.getByRole('button', { name: 'Pair' }).click();
  await expect(phone.getByRole('alert')).toBeVisible();

  // An address tries nothing by itself, be its code right or not: a foreign page may lead here.
  const tried: string[] = [];
  phone.on('request', (request) => {
    if (request.url().endsWith('/api/pair')) tried.push(request.url());
  });
  for (const written of ['foreign', '%', code]) {
    await phone.goto(`${served.home}/#pair=${written}`);
    await expect(phone.getByLabel('Code')).toHaveValue(written ?? '');
  }
  expect(tried).toEqual([]);
  await phone.getByLabel('Name of this device').fill('Kitchen phone');
  await phone.getByRole('button', { name: 'Pair' }).click();
  await told(phone, /Paired\./);
  await expect(phone.getByRole('heading', { name: 'Situation' })).toBeVisible();
  await phone.goto(`${served.home}/#/settings`);
  await expect(phone.getByText('Sharing is switched on the computer that runs Mitefall.')).toBeVisible();

  await phone.goto(`${served.home}/#/today`);
  await phone.getByRole('button', { name: /^Done: Mix/ }).click();
  await open(page, served, 'today');
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
});

test('a paired device is known by its name and shut out alone', async ({ page, served, another }, info) => {
  await open(page, served, 'settings');
  await expect(page.getByText('No device is paired.')).toBeVisible();
  const phones: Page[] = [];
  for (const name of ['Kitchen phone', 'Lost phone']) {
    const phone = await another();
    const link = page.getByText(/#pair=/);
    const before = await link.innerText();
    await phone.goto(before.slice(before.indexOf('http')));
    await phone.getByLabel('Name of this device').fill(name);
    await phone.getByRole('button', { name: 'Pair' }).click();
    await expect(phone.getByRole('heading', { name: 'Situation' })).toBeVisible();
    await expect(page.getByText(name, { exact: true })).toBeVisible();
    await expect(link).not.toHaveText(before);
    phones.push(phone);
  }
  await look(page, info, 'devices');
  await page.getByRole('button', { name: 'Shut out Lost phone' }).click();
  await told(page, /Lost phone is shut out/);
  await expect(page.getByText('Lost phone', { exact: true })).toHaveCount(0);
  await expect(page.getByText('Kitchen phone', { exact: true })).toBeVisible();
  await phones[1]!.reload();
  await expect(phones[1]!.getByRole('heading', { name: 'Pair this device' })).toBeVisible();
  await phones[0]!.reload();
  await expect(phones[0]!.getByRole('heading', { name: 'Situation' })).toBeVisible();
});

test('an address nobody can read leads to the situation', async ({ page, served }) => {
  for (const place of ['%', '%E0%A4%A', 'constructor']) {
    await page.goto(`${served.address}/#/${place}`);
    await expect(page.getByRole('heading', { name: 'Situation' })).toBeVisible();
    await page.goto('about:blank');
  }
});

test('a computer that needs no pairing is not asked for a code by an address', async ({ page, served }) => {
  await page.goto(`${served.address}/#pair=foreign`);
  await expect(page.getByText('There is nothing to pair.')).toBeVisible();
  await page.getByRole('link', { name: 'Go to the situation' }).click();
  await expect(page.getByRole('heading', { name: 'Situation' })).toBeVisible();
});
