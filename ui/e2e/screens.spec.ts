// Every screen, with a plan adopted: a picture, no accessibility violation, nothing cut off.
import { expect, look, open, settled, test } from './served';

test.use({ collection: 'adopted' });

const places: Record<string, string[]> = {
  'the daily screens': [
    '',
    'is-it-a-mite',
    'sighting',
    'tonight',
    'today',
    'plan/now',
    'plan/verdicts',
    'more',
  ],
  'mixing and checking': [
    'mix',
    'mix/strength',
    'mix/batches',
    'mix/shopping',
    'checks/record',
    'checks/next',
    'checks/origin',
  ],
  'the collection': [
    'collection',
    'collection/enclosures',
    'collection/add',
    'collection/import',
    'collection/journal',
    'animal/ada',
    'enclosure/a-05',
    'room/snakes',
    'contact/item/a-05',
    'contact/handled/a-05',
  ],
  'the rest and paper': [
    'evidence',
    'evidence/matters',
    'evidence/sources',
    'settings',
    'print/worklist',
    'print/enclosures',
    'print/plan',
    'print/vet/ada',
    'print/buyer/ada',
  ],
};

for (const [title, group] of Object.entries(places)) {
  test(title, async ({ page, served }, info) => {
    await page.addInitScript(() =>
      localStorage.setItem('mitefall.bench', '{"stockRead":true,"stockIs":"plain"}'),
    );
    for (const place of group) {
      await open(page, served, place);
      await settled(page);
      await expect(page.getByText('One moment…')).toHaveCount(0);
      await expect(page.getByRole('alert')).toHaveCount(0);
      await look(page, info, `screen-${place.replaceAll('/', '-') || 'situation'}`);
    }
  });
}
