// SPDX-License-Identifier: Apache-2.0
// The light of an article on the real engine: what its beam and lumens come to, a file of intensities brought in whose
// sums have a closed form (tests/reference/photometry), files that are refused, the way out, and undo.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stand } from './browser.mjs';

const files = resolve(import.meta.dirname, '../../../tests/reference/photometry');
const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  page = await openPage(context, here.site.address);
  await openDemo(page);
  await page.getByRole('region', { name: 'Objects', exact: true }).getByRole('button', { name: /Pond, far bank/ }).click();
  await card().getByText('How it spreads its light').click();
  await card().getByRole('img', { name: /^Polar plot/ }).waitFor();
});

const properties = () => page.getByRole('region', { name: 'Properties', exact: true });
const card = () => properties().locator('details', { hasText: 'How it spreads its light' });
const fact = (name) => card().locator('dt', { hasText: name }).first().locator('xpath=following-sibling::dd[1]');
const bring = (file) => card().getByLabel('Intensity file of the maker').setInputFiles(resolve(files, file));
const curve = () => card().locator('svg path.along').getAttribute('d');
const first = async (name) => Number(/[\d.,]+/.exec(await fact(name).textContent())[0].replaceAll(',', ''));
const within = (found, wanted, tolerance, what) => assert.ok(Math.abs(found - wanted) <= tolerance, `${what}: ${found}, expected ${wanted} ± ${tolerance}`);

test('a file of intensities takes the place of beam and lumens, and undo brings them back', async () => {
  await card().getByText(/An estimate\./).waitFor();
  const before = [await first('Light'), await first('Peak'), await curve()];

  // 1000 cd times cos⁴ gamma: 2000 pi / 5 lm; half of it at acos(0.5 ^ 0.25), a tenth at acos(0.1 ^ 0.25).
  await bring('made-here/cos4-1000cd.ies');
  await card().getByText(/a maker’s file, LM-63/).waitFor();
  const angle = (share) => (2 * Math.acos(share ** 0.25) * 180) / Math.PI;
  within(await first('Light'), (2000 * Math.PI) / 5, 1.5, 'lumens');
  within(await first('Peak'), 1000, 0.5, 'candela');
  const [half, tenth] = (await fact('Beam, C 0').textContent()).match(/[\d.]+(?=\s*°)/g).map(Number);
  within(half, angle(0.5), 0.3, 'to half');
  within(tenth, angle(0.1), 0.3, 'to a tenth');
  assert.match(await fact('Light').textContent(), /100 % down/);
  assert.notEqual(await curve(), before[2]);

  // The article's own fields follow the file.
  await properties().getByText('The article in this job').click();
  within(Number(await properties().getByRole('textbox', { name: 'Light', exact: true }).inputValue()), 1257, 1, 'lumens of the article');

  const saving = page.waitForEvent('download');
  await card().getByRole('button', { name: 'Save as LM-63' }).click();
  const saved = await saving;
  assert.match(saved.suggestedFilename(), /\.ies$/);
  assert.match(readFileSync(await saved.path(), 'latin1'), /^IES/);

  await page.getByRole('button', { name: 'Undo: Intensity file cos4-1000cd.ies' }).click();
  await card().getByText(/An estimate\./).waitFor();
  assert.deepEqual([await first('Light'), await first('Peak'), await curve()], before);

  // The same file once more, for which a browser asks for an emptied field, and out again.
  assert.equal(await card().getByLabel('Intensity file of the maker').evaluate((input) => input.files.length), 0);
  await bring('made-here/cos4-1000cd.ies');
  await card().getByText(/a maker’s file, LM-63/).waitFor();
  await card().getByRole('button', { name: 'Take the file out' }).click();
  await card().getByText(/An estimate\./).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a EULUMDAT file is read, and a broken file is refused with its line', async () => {
  // tests/reference/photometry.csv: 906.574 lm.
  await bring('ldt/isym1-axial-mc36.ldt');
  await card().getByText(/a maker’s file, EULUMDAT/).waitFor();
  within(await first('Light'), 906.574, 3, 'lumens');
  const undo = page.getByRole('button', { name: 'Undo: Intensity file isym1-axial-mc36.ldt' });
  await undo.waitFor();

  await bring('malformed/ies-nonnumeric.ies');
  await card().getByRole('alert').getByText(/^\s*line \d+: /).waitFor();
  within(await first('Light'), 906.574, 3, 'lumens');
  await undo.click();
  await card().getByText(/An estimate\./).waitFor();
  assert.deepEqual(page.complaints, []);
});
