// SPDX-License-Identifier: Apache-2.0
// The panes of an open job on the real engine: the profile of a run, findings and their cures.
import assert from 'node:assert/strict';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stage, stand } from './browser.mjs';

const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
  await openDemo(page);
});

const findingsTab = () => page.getByRole('button', { name: 'Findings' }).click();

test('the profile has every lamp of the run, and pointing at one selects it on the plan', async () => {
  await stage(page, 'Wiring');
  const chart = page.getByRole('group', { name: 'Volts against distance along T2-B' });
  await chart.waitFor();
  assert.equal(await chart.getByRole('button').count(), 7);
  await chart.getByRole('button', { name: /^Pond, far bank: 10\.65 volts nominal/ }).hover();
  await page.locator('[data-thing="luminaire/F5"].selected').waitFor();
  await chart.getByRole('button', { name: /^Pond, far bank/ }).focus();
  await page.keyboard.press('Tab');
  assert.equal(await page.locator('[data-thing^="luminaire/"].selected').count(), 1);
  assert.equal(await page.locator('[data-thing="luminaire/F5"].selected').count(), 0);
  await page.getByText(/Margin to collapse: all loads may grow 1\.40 times/).waitFor();
  await page.getByText('As a table').click();
  await page.getByRole('table', { name: /Lamps of T2-B/ }).getByRole('cell', { name: '10.65' }).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a finding shows its place, and its cure takes it away in one step of undo', async () => {
  await stage(page, 'Check');
  await findingsTab();
  const card = page.getByRole('article', { name: 'Error: Pond, far bank (F5)' });
  await card.getByRole('button', { name: 'Show on the plan' }).click();
  await page.locator('[data-thing="luminaire/F5"].selected').waitFor();
  await card.getByRole('button', { name: /^Tap 13 on T2-B/ }).click();
  await page.getByRole('status').getByText(/Done\. Tap 13 on T2-B.*The finding is gone\./).waitFor();
  assert.equal(await card.count(), 0);
  await page.getByRole('navigation').getByText('2 errors').waitFor();
  await page.getByRole('button', { name: 'Undo this cure' }).click();
  await card.waitFor();
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  assert.deepEqual(page.complaints, []);
});

test('all three planted errors go by their cures, and the job is sound', async () => {
  await stage(page, 'Check');
  await findingsTab();
  for (const left of [2, 1, 0]) {
    // Cures come a moment after the findings, and before the key that shows the place.
    const first = page.getByRole('article', { name: /^Error/ }).first();
    await first.getByRole('heading', { name: /^Computed cure/ }).waitFor();
    await first.getByRole('button').first().click();
    if (left > 0) await page.getByRole('navigation').getByText(`${left} error`).waitFor();
    else await page.getByRole('article', { name: /^Error/ }).waitFor({ state: 'detached' });
  }
  assert.equal(await page.getByRole('article', { name: /^Error/ }).count(), 0);
});

const objects = () => page.getByRole('region', { name: 'Objects', exact: true });
const properties = () => page.getByRole('region', { name: 'Properties', exact: true });

test('several lights change together, in one step of undo', async () => {
  await objects().getByRole('button', { name: /Pond, near bank/ }).click();
  await objects().getByRole('button', { name: /Pond, far bank/ }).click({ modifiers: ['Shift'] });
  await properties().getByRole('heading', { name: '2 lights' }).waitFor();
  const name = properties().getByLabel('Name', { exact: true }).first();
  assert.equal(await name.getAttribute('placeholder'), 'several');
  const tilt = properties().getByLabel('Aim, up from level');
  await tilt.fill('35');
  await tilt.press('Enter');
  await objects().getByRole('button', { name: /Pond, far bank/ }).click();
  assert.equal(await tilt.inputValue(), '35');
  await page.getByRole('button', { name: 'Undo: Aim, up from level of 2 lights' }).click();
  assert.equal(await tilt.inputValue(), '');
  assert.deepEqual(page.complaints, []);
});

test('a length typed in feet is stored in metres, and the volts follow', async () => {
  await objects().getByText('Cables').click();
  await objects().getByRole('button', { name: /^F-C1/ }).click();
  const facts = properties().getByText('Drop', { exact: true }).locator('..');
  const before = await facts.textContent();
  const length = properties().getByLabel('Measured length');
  await length.fill("120'");
  await length.press('Enter');
  await page.waitForFunction(([element, text]) => element.textContent !== text, [await facts.elementHandle(), before]);
  assert.equal(await length.inputValue(), '120');
  await page.getByRole('button', { name: 'Undo: Measured length of F-C1' }).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('another light out of the whole catalogue comes into the job with its search', async () => {
  await objects().getByRole('button', { name: /Pond, far bank/ }).click();
  await properties().getByRole('button', { name: /^Light / }).click();
  const dialog = page.getByRole('dialog', { name: 'Choose: light' });
  await dialog.getByLabel('Find an article').fill('path 2 w');
  await dialog.getByRole('button', { name: /^Path light, 2 W/ }).click();
  await properties().getByRole('button', { name: /^Light Path light, 2 W/ }).waitFor();
  await properties().getByText('The article in this job').click();
  const power = properties().getByLabel('Apparent power');
  await power.fill('3.5');
  await power.press('Enter');
  await page.getByRole('button', { name: /^Undo: Path light, 2 W.* in this job/ }).waitFor();
  assert.deepEqual(page.complaints, []);
});
