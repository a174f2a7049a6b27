// SPDX-License-Identifier: Apache-2.0
// Places from two tapes, and the scale of a picture with a second distance to check it.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { afterEach, test } from 'node:test';
import { openPage, stand } from './browser.mjs';

const here = stand();
let context;
let page;

afterEach(() => context?.close());

const tool = (name) => page.getByRole('toolbar', { name: 'Tools of the plan' }).getByRole('button', { name: new RegExp(`^${name}`) });
const marks = () => page.locator('[data-thing^="fixed_point/"]');

async function click(x, y) {
  const box = await page.getByRole('application').boundingBox();
  await page.mouse.click(box.x + box.width * x, box.y + box.height * y);
}

async function type(text) {
  await page.getByPlaceholder('Length < angle').fill(text);
  await page.keyboard.press('Enter');
}

// Where the marks are, in metres: out of their transforms.
const placesOf = () => marks().evaluateAll((all) => all.map((one) => one.getAttribute('style').match(/translate\(([-\d.e]+)px, ([-\d.e]+)px\)/).slice(1).map(Number)));

test('two distances from two points give a place that is that far from both', async () => {
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
  await page.getByRole('button', { name: 'New job' }).click();
  await page.getByRole('dialog').getByLabel('Title').fill('Taped');
  await page.getByRole('dialog').getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('application').waitFor();
  await tool('Place a tree').click();
  await page.getByLabel('What to draw').selectOption('fixed_point');
  await click(0.35, 0.7);
  await click(0.65, 0.7);
  const [a, b] = await placesOf();
  await tool('Place a point by two').click();
  await click(0.35, 0.7);
  await click(0.65, 0.7);
  await type('1 m');
  await type('1 m');
  await page.getByText(/too short to meet/).first().waitFor();
  const apart = Math.hypot(a[0] - b[0], a[1] - b[1]);
  const [fromA, fromB] = [(apart * 0.8).toFixed(3), (apart * 0.6).toFixed(3)];
  await type(`${fromA} m`);
  await type(`${fromB} m`);
  await page.getByText(/It may be off by/).first().waitFor();
  await click(0.5, 0.4);
  assert.equal(await marks().count(), 3);
  const made = (await placesOf()).at(-1);
  const away = (from) => Math.hypot(made[0] - from[0], made[1] - from[1]);
  assert.ok(Math.abs(away(a) - fromA) < 1e-6 && Math.abs(away(b) - fromB) < 1e-6, `${away(a)} and ${away(b)} m`);
  assert.ok(made[1] > a[1], 'the side that was tapped');
  assert.deepEqual(page.complaints, []);
});

test('a picture gets its scale from two points; a second distance says by how much it is off', async () => {
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
  await page.getByRole('button', { name: 'On a picture' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job on a picture' });
  const png = await readFile(resolve(import.meta.dirname, '../../public/icon-512.png'));
  await dialog.getByLabel('Picture of the plan').setInputFiles({ name: 'plan.png', mimeType: 'image/png', buffer: png });
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  const image = page.getByRole('application').locator('image');
  await image.waitFor();
  // Pixels on the screen for a pixel of the picture: as wide as it is drawn.
  const before = (await image.boundingBox()).width;
  const box = await page.getByRole('application').boundingBox();
  const pxPerM = async () => {
    const matrix = await page.getByRole('application').locator('g[transform^="matrix"]').first().getAttribute('transform');
    return Number(/matrix\(([\d.]+)/.exec(matrix)[1]);
  };
  const shownM = (box.width * 0.1) / (await pxPerM());
  await tool('Set the scale').click();
  await click(0.45, 0.7);
  await click(0.55, 0.7);
  await type(`${2 * shownM} m`);
  const after = (await image.boundingBox()).width;
  assert.ok(Math.abs(after / before - 2) < 0.02, `${after / before} times as wide`);
  await click(0.45, 0.7);
  await click(0.55, 0.7);
  await type(`${1.1 * shownM} m`);
  await page.getByText(/disagrees by 9\.\d %/).first().waitFor();
  assert.equal((await image.boundingBox()).width, after, 'nothing is changed by a check');
  await page.getByRole('button', { name: 'Finish' }).click();
  assert.ok(Math.abs((await image.boundingBox()).width / after - 1.05) < 0.01);
  assert.deepEqual(page.complaints, []);
});
