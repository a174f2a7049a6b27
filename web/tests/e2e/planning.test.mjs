// SPDX-License-Identifier: Apache-2.0
// Planning the wiring of the demo garden on the real engine: progress, stop, accept as one step of undo, what is held
// fast, and what is said where nothing fits.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stage, stand } from './browser.mjs';

const here = stand();
const ostrey = () => JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../examples/ostrey-garden.json'), 'utf8'));
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
});

const view = () => page.getByRole('dialog', { name: 'Plan the wiring' });
const button = (name) => view().getByRole('button', { name, exact: true });
const choice = () => view().getByLabel('Cable, light or transformer');
const drawing = (title) => view().getByRole('figure', { name: title });
const openView = async () => {
  await page.getByRole('button', { name: 'Plan the wiring' }).click();
  await view().waitFor();
};
const plan = async (seconds) => {
  await view().getByLabel('Search for').selectOption(String(seconds));
  await button('Start planning').click();
};
const planned = () => button('Accept the planned wiring').waitFor();

/** Each cable of a drawing with its way. */
const cablesIn = (place) =>
  place.locator('[data-thing^="cable/"]').evaluateAll((cables) => cables.map((cable) => `${cable.getAttribute('data-thing')} ${cable.querySelector('polyline').getAttribute('points')}`).sort());
const onThePlan = () => cablesIn(page.locator('main'));

const figure = async (title, column) => {
  const cell = view().getByRole('row', { name: new RegExp(`^${title}`) }).getByRole('cell').nth(column);
  return Number((await cell.locator('.figures').textContent()).replaceAll(/[^\d.-]/g, ''));
};

test('a search is watched, stopped with the best so far, accepted, undone and done again', async () => {
  await openDemo(page);
  const before = await onThePlan();
  await openView();
  await plan(60);
  const search = view().getByRole('region', { name: 'The search' });
  await search.getByText(/^Searching/).waitFor();
  await search.getByText('40 of 40').waitFor();
  await search.getByRole('img', { name: /^Best cost over time: from USD/ }).waitFor();
  await search.getByText('Against today').locator('..').getByText(/less$/).waitFor();
  const used = async () => Number.parseFloat(await search.getByText(/^[\d.]+ of 60/).textContent());
  const before_s = await used();
  await button('Stop, keep the best so far').click();
  await planned();
  const after_s = await used();
  assert.ok(after_s < Math.min(60, before_s + 30), `to be stopped at ${before_s} s of 60, stopped after ${after_s}`);
  assert.deepEqual(await onThePlan(), before, 'today’s wiring stays until another is accepted');
  assert.deepEqual(await cablesIn(drawing('Today')), before);
  const drawn = await cablesIn(drawing('Planned'));
  assert.notDeepEqual(drawn, before);
  assert.ok((await figure('Installed cost', 1)) < (await figure('Installed cost', 0)));
  const counted = async (title) => Number((await search.getByText(title).locator('..').locator('dd').textContent()).replaceAll(/[^\d.]/g, ''));
  const [cost, saved] = [await counted('Best found, estimate'), await counted('Against today')];
  assert.equal(cost, await figure('Installed cost', 1), 'the search counts what the table counts');
  assert.equal(await counted('Trench'), Math.round(await figure('Trench', 1)));
  assert.ok(Math.abs((await figure('Installed cost', 0)) - cost - saved) < 0.011);
  assert.equal(await figure('Errors', 0), 3);
  assert.equal(await figure('Errors', 1), 0);
  assert.ok((await figure('Least room', 1)) >= 0);

  await button('Accept the planned wiring').click();
  await view().waitFor({ state: 'detached' });
  assert.deepEqual(await onThePlan(), drawn);
  const stages = page.getByRole('navigation', { name: 'Stages of the work' });
  await stages.getByText('3 errors').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Undo: Planned wiring', exact: true }).click();
  assert.deepEqual(await onThePlan(), before);
  await page.getByRole('banner').getByRole('button', { name: 'Undo', exact: true, disabled: true }).waitFor();
  await stages.getByText('3 errors').waitFor();
  await page.getByRole('button', { name: 'Redo: Planned wiring', exact: true }).click();
  assert.deepEqual(await onThePlan(), drawn);
  assert.deepEqual(page.complaints, []);
});

test('what is held fast is remembered, asked for and stays as it is', async () => {
  await openDemo(page);
  await openView();
  await choice().selectOption('cable/F-C1');
  await button('Stays as it is').click();
  assert.equal(await button('Stays as it is').getAttribute('aria-pressed'), 'true');
  // By a tap on today's plan as well.
  await drawing('Today').locator('[data-thing="luminaire/B5"]').click();
  assert.equal(await choice().inputValue(), 'luminaire/B5');
  await button('Gets an output of its own').click();
  const held = view().getByRole('list', { name: 'Held fast' });
  assert.equal(await held.getByRole('listitem').count(), 2);
  await held.getByRole('button', { name: /^Let go: Gets an output of its own/ }).click();
  await plan(2);
  await planned();
  const [kept] = (await cablesIn(drawing('Today'))).filter((cable) => cable.startsWith('cable/F-C1 '));
  assert.ok(kept);
  assert.ok((await cablesIn(drawing('Planned'))).includes(kept), 'the cable keeps its way');

  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Look at the planned wiring' }).click();
  assert.equal(await held.getByRole('listitem').count(), 1);
  await choice().selectOption('luminaire/F5');
  await button('Gets an output of its own').click();
  await view().getByText(/has changed since\. Plan again/).waitFor();
  await button('Plan again').click();
  await view().getByText(/has changed since\. Plan again/).waitFor({ state: 'detached' });
  await planned();
  await drawing('Planned').locator('[data-thing="luminaire/F5"]').click();
  assert.match(await view().getByRole('button', { name: /^Run /, pressed: true }).textContent(), /1 lamp,/);
  assert.equal(await drawing('Planned').locator('.lamp.selected').count(), 1);
  await button('Keep today’s wiring').click();
  await view().waitFor({ state: 'detached' });
  await page.getByRole('banner').getByRole('button', { name: 'Undo', exact: true, disabled: true }).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a run is shown by a tap on its sentence, or on the planned plan', async () => {
  await openDemo(page);
  await openView();
  await plan(2);
  await planned();
  const runs = view().getByRole('region', { name: 'Why it is so' }).getByRole('button', { name: /^Run / });
  const selected = drawing('Planned').locator('.cable.selected');
  assert.equal(await selected.count(), 0);
  await runs.first().click();
  assert.ok((await selected.count()) > 0);
  const lamps = await drawing('Planned').locator('.lamp.selected').count();
  assert.match(await runs.first().textContent(), new RegExp(`^Run \\S+?${lamps} lamps?,`));
  await runs.first().click();
  assert.equal(await selected.count(), 0);
  await drawing('Planned').locator('[data-thing="luminaire/F5"]').click();
  assert.equal(await view().getByRole('button', { name: /^Run /, pressed: true }).count(), 1);
  assert.deepEqual(page.complaints, []);
});

test('closing the view loses neither the search nor the plan; a job that has changed is not overwritten', async () => {
  await openDemo(page);
  await page.getByRole('application').focus();
  await page.keyboard.press('w');
  await view().waitFor();
  await plan(2);
  await page.keyboard.press('Escape');
  await view().waitFor({ state: 'detached' });
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute('role')), 'application');
  const toast = page.getByRole('status').filter({ hasText: 'The wiring has been planned.' });
  await toast.waitFor();
  await toast.getByRole('button', { name: 'Look at it' }).click();
  await planned();
  await page.keyboard.press('Escape');
  await stage(page, 'Site');
  const title = page.getByRole('textbox', { name: 'Title', exact: true });
  await title.fill('Renamed');
  await title.press('Enter');
  await page.getByRole('button', { name: 'Look at the planned wiring' }).click();
  await view().getByText(/The job has changed since this was planned/).waitFor();
  assert.equal(await button('Accept the planned wiring').isDisabled(), true);
  await button('Plan again').click();
  await view().getByText(/The job has changed since this was planned/).waitFor({ state: 'detached' });
  await page.waitForFunction(() => [...document.querySelectorAll('dialog button')].some((one) => one.textContent.includes('Accept') && !one.disabled));
  assert.deepEqual(page.complaints, []);
});

test('where nothing fits it says what stands in the way and what helps', async () => {
  const job = ostrey();
  const far = job.luminaires.find(({ id }) => id === 'F5');
  far.position = [far.position[0] - 3000, ...far.position.slice(1)];
  job.title = 'An impossible garden';
  await page.getByLabel('Job file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
  await page.getByRole('application').waitFor();
  await openView();
  await plan(2);
  await view().getByText(/^No sound wiring was found\./).first().waitFor();
  const way = view().getByRole('region', { name: 'In the way' });
  await way.getByRole('heading', { name: /F5/ }).first().waitFor();
  await way.getByText('What helps:').first().waitFor();
  assert.equal(await button('Accept the planned wiring').count(), 0);
  await button('Keep today’s wiring').click();
  assert.deepEqual(page.complaints, []);
});
