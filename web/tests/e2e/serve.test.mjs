// SPDX-License-Identifier: Apache-2.0
// The page on the real `duskwire serve`: saved within a second, the server killed under it, two clients on one job.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { keptOnDevice, openPage, rename, stage, title } from './browser.mjs';
import { servedStand } from './server.mjs';

const here = servedStand();
const { server } = here;

const client = async () => openPage(await here.browser.newContext({ viewport: { width: 1440, height: 900 } }), server.address);
const saved = (page) => page.locator('header').getByText('Saved in workspace').waitFor();

// Whether this device's storage has the tap that was chosen without the server.
async function onDesk() {
  const settled = (request) => new Promise((done, failed) => Object.assign(request, { onsuccess: () => done(request.result), onerror: () => failed(request.error) }));
  const database = await settled(indexedDB.open('duskwire'));
  const rows = await settled(database.transaction('desk').objectStore('desk').getAll());
  database.close();
  return rows.some(({ document }) => document.transformers.some(({ outputs }) => outputs.some(({ id, tap_v }) => id === 'T2-B' && tap_v === 13)));
}

async function openGarden(page) {
  await page.getByRole('link', { name: 'The Ostrey garden' }).first().click();
  await page.getByRole('application').waitFor();
  await stage(page, 'Site');
}

test('a change goes to the server by itself, and is called saved once it is there', async () => {
  const page = await client();
  assert.doesNotMatch(page.url(), /token/);
  await openGarden(page);
  await page.locator('nav').getByText('3 errors').waitFor();
  const sent = page.waitForRequest((request) => request.method() === 'PUT');
  await page.getByLabel('Client', { exact: true }).fill('A client');
  await page.getByLabel('Client', { exact: true }).press('Enter');
  await sent;
  await saved(page);
  assert.deepEqual(page.complaints, []);
  await page.context().close();
});

test('the server is killed: the page goes on, says so, and sends it all once there is a server again', async () => {
  const page = await client();
  await openGarden(page);
  await keptOnDevice(page);
  await rename(page, 'Before the cut');
  await saved(page);
  await server.kill();
  await rename(page, 'During the cut');
  await page.locator('header').getByText(/Not sent since .*kept on this device/).first().waitFor();
  await stage(page, 'Transformers');
  await page.getByLabel('Tap of T2-B', { exact: true }).selectOption('13');
  await page.locator('nav').getByText('2 errors').waitFor();
  await page.waitForFunction(onDesk);
  // A cold start without the server: the page and its work are on this device.
  await page.reload();
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'During the cut');
  await page.locator('nav').getByText('2 errors').waitFor();
  // The page goes before the server comes: while it is there it sends the job itself, and there is nothing to tell.
  await page.goto('about:blank');
  await server.start();
  await page.goto(server.address);
  await page.getByText('1 job from this device sent.').waitFor();
  await page.context().close();
  const other = await client();
  await other.getByRole('link', { name: 'During the cut' }).first().click();
  await other.getByRole('application').waitFor();
  await other.locator('nav').getByText('2 errors').waitFor();
  await stage(other, 'Site');
  await rename(other, 'The Ostrey garden');
  await saved(other);
  await other.context().close();
});

test('two clients change one job: both versions are named, neither is lost', async () => {
  const [one, two] = [await client(), await client()];
  await openGarden(one);
  await openGarden(two);
  await rename(one, 'From the first');
  await saved(one);
  await rename(two, 'From the second');
  const dialog = two.getByRole('dialog', { name: 'This job was saved elsewhere' });
  await dialog.getByText('Title', { exact: true }).waitFor();
  await dialog.getByRole('button', { name: 'Go on with mine' }).click();
  await saved(two);
  assert.equal(await title(two), 'From the second');
  await two.getByRole('button', { name: 'More for this job' }).click();
  await two.getByRole('menuitem', { name: 'Versions' }).click();
  const versions = two.getByRole('dialog').getByRole('listitem');
  await versions.nth(2).waitFor();
  await one.context().close();
  await two.context().close();
});
