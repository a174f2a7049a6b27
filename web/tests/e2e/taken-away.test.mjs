// SPDX-License-Identifier: Apache-2.0
// What the page stands on is taken away or changed under it: a new version while two tabs have edits in flight, half a
// download, no worker any more, the browser's storage wiped or full, a clock that is off by a year. At most what was
// shown as unsent is lost, and it was said.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { after, before, test } from 'node:test';
import { describeFailures, keptOnDevice, launch, openDemo, openPage, rename, stage, title, until } from './browser.mjs';
import { ChangingHost } from './changing-host.mjs';

const garden = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../examples/small-garden.json'), 'utf8'));
const host = new ChangingHost();
const here = {};
let address;
let context;
let page;

before(async () => {
  [here.browser, address] = await Promise.all([launch(), host.start()]);
});
describeFailures(here);
after(async () => {
  await here.browser.close();
  host.stop();
});

const saved = (on) => on.locator('header').getByText('Saved in this browser').waitFor();
const lookForUpdate = (on) => on.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update().then(() => 'found', () => 'none'));
const cacheNames = (on) => on.evaluate(() => caches.keys());
const opened = (on) => on.getByRole('application').waitFor();

/** The demo's site in a page that starts without signal. */
async function fresh() {
  await context?.close();
  Object.assign(host, { version: 1, breaks: undefined, worker: undefined });
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  page = await openPage(context, address);
  await openDemo(page);
  await stage(page, 'Site');
  await saved(page);
  await keptOnDevice(page);
}

async function reopened(on) {
  await on.reload();
  await opened(on);
}

test('two tabs with edits in flight go over to a new version together, and lose nothing', async () => {
  await fresh();
  const other = await openPage(context, address);
  await other.getByLabel('Job file').setInputFiles({ name: 'small.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(garden)) });
  await opened(other);
  await stage(other, 'Site');
  await keptOnDevice(other);
  const [old] = await cacheNames(page);
  host.version = 2;
  assert.equal(await lookForUpdate(page), 'found');
  const update = page.getByRole('button', { name: 'Save and update' });
  await update.waitFor();
  for (const tab of [page, other]) await tab.evaluate(() => (window.before = true));
  await rename(other, 'In flight in the other tab');
  await rename(page, 'In flight in this tab');
  await update.click();
  for (const tab of [page, other]) {
    await tab.waitForFunction(() => window.before === undefined);
    await opened(tab);
  }
  assert.equal(await title(page), 'In flight in this tab');
  assert.equal(await title(other), 'In flight in the other tab');
  const now = await cacheNames(page);
  assert.equal(now.length, 1);
  assert.notEqual(now[0], old);
  assert.deepEqual([page.complaints, other.complaints], [[], []]);
});

test('half a download of a new version is thrown away, and the old one starts without signal', async () => {
  await fresh();
  const kept = await cacheNames(page);
  Object.assign(host, { version: 2, breaks: '.wasm' });
  const left = await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const found = new Promise((told) => registration.addEventListener('updatefound', told, { once: true }));
    void registration.update().catch(() => undefined);
    await found;
    const worker = registration.installing;
    await new Promise((told) => worker.addEventListener('statechange', () => worker.state === 'redundant' && told()));
    return caches.keys();
  });
  assert.deepEqual(left, kept);
  assert.equal(await page.getByRole('button', { name: 'Save and update' }).count(), 0);
  await rename(page, 'Kept meanwhile');
  await saved(page);
  await context.setOffline(true);
  await reopened(page);
  assert.equal(await title(page), 'Kept meanwhile');
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await context.setOffline(false);
});

test('a worker that the host has no more leaves the kept version and the work as they are', async () => {
  await fresh();
  host.worker = 404;
  assert.equal(await lookForUpdate(page), 'none');
  await rename(page, 'Without a worker’s file');
  await saved(page);
  await reopened(page);
  await context.setOffline(true);
  await reopened(page);
  assert.equal(await title(page), 'Without a worker’s file');
  await context.setOffline(false);
});

test('the off-switch takes the kept files away, once, and no work', async () => {
  await fresh();
  host.worker = readFileSync(resolve(import.meta.dirname, '../../src/offline/off-switch.js'), 'utf8');
  await page.evaluate(() => (window.before = true));
  await rename(page, 'Before the switch');
  // Found, it makes the page load itself again at once, which may be before an answer to this.
  await page.evaluate(async () => void (await navigator.serviceWorker.getRegistration()).update());
  await page.waitForFunction(() => window.before === undefined);
  await opened(page);
  assert.equal(await title(page), 'Before the switch');
  // What the host has is registered at each start: by now a worker that keeps nothing.
  await until(async () => assert.deepEqual(await page.evaluate(() => caches.keys()), []));
  await page.evaluate(() => (window.before = true));
  await page.waitForTimeout(500);
  assert.equal(await page.evaluate(() => window.before), true, 'it does not load itself again and again');
});

test('storage that is wiped mid-job: the open job is put back at once, and it is said what is gone', async () => {
  await fresh();
  await rename(page, 'Before the wipe');
  await saved(page);
  const cdp = await context.newCDPSession(page);
  await cdp.send('Storage.clearDataForOrigin', { origin: new URL(address).origin, storageTypes: 'all' });
  await page.getByText(/had lost this job and has it again.*earlier versions are gone/).waitFor();
  await rename(page, 'After the wipe');
  await saved(page);
  await reopened(page);
  assert.equal(await title(page), 'After the wipe');
});

test('a full browser says that the work is not saved, hands it out, does not give it up for a new version, and saves once there is room', async () => {
  await fresh();
  // As the browser refuses (a quota set from outside is not felt by so little).
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('Full.', 'QuotaExceededError');
    };
    window.makeRoom = () => (IDBObjectStore.prototype.put = put);
    window.before = true;
  });
  await rename(page, 'No room for this');
  await page.locator('header').getByText(/^Not saved: This browser has no room left/).first().waitFor();
  await page.getByRole('button', { name: 'More for this job' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
  assert.match(readFileSync(await download.path()).toString('latin1'), /No room for this/);
  host.version = 2;
  const other = await openPage(context, address);
  await lookForUpdate(other);
  await other.getByRole('button', { name: 'Save and update' }).click();
  await page.getByText(/newer version of the page has taken over, but the work in this tab is kept nowhere else/).waitFor();
  assert.equal(await page.evaluate(() => window.before), true);
  await page.evaluate(() => window.makeRoom());
  await page.locator('header').getByText('Saved in this browser').waitFor();
  await reopened(page);
  assert.equal(await title(page), 'No room for this');
});

test('a clock that is off by a year, and back, loses neither work nor versions', async () => {
  await fresh();
  const year = 365 * 86_400_000;
  for (const [name, off] of [['A year ahead', year], ['A year behind', -year], ['Right again', 0]]) {
    await context.clock.setSystemTime(Date.now() + off);
    await rename(page, name);
    await saved(page);
    await reopened(page);
    assert.equal(await title(page), name);
  }
  await page.getByRole('button', { name: 'More for this job' }).click();
  await page.getByRole('menuitem', { name: 'Versions' }).click();
  await page.getByRole('dialog').getByRole('listitem').nth(3).waitFor();
});
