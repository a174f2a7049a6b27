// SPDX-License-Identifier: Apache-2.0
// The work is kept: without signal, over a closed tab, between two tabs, through a file.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { test } from 'node:test';
import { keptOnDevice, loadedAgain, openDemo, openPage, rename, stage, stand, title } from './browser.mjs';

const here = stand();
let page;
let context;

async function fresh() {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 }, acceptDownloads: true });
  page = await openPage(context, here.site.address);
}

const saved = (on) => on.locator('header').getByText('Saved in this browser').waitFor();

test('a cold start without signal has the job, its engine and its undo', async () => {
  await fresh();
  await openDemo(page);
  await keptOnDevice(page);
  await stage(page, 'Site');
  await rename(page, 'Renamed');
  await saved(page);
  await context.setOffline(true);
  await page.reload();
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'Renamed');
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await page.getByRole('button', { name: 'Undo: Title' }).click();
  assert.equal(await title(page), 'The Ostrey garden');
  await context.setOffline(false);
});

test('a tab that is closed at once has lost nothing', async () => {
  await fresh();
  await openDemo(page);
  await stage(page, 'Site');
  const address = page.url();
  await rename(page, 'Closed at once');
  await page.close({ runBeforeUnload: false });
  page = await context.newPage();
  await page.goto(address);
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'Closed at once');
});

test('a change in the wake of another is there after a reload at once', async () => {
  await fresh();
  await openDemo(page);
  await stage(page, 'Site');
  for (const round of [1, 2, 3]) {
    // Both changes and the reload in one turn of the page: nothing of it can have reached the disk before. The last time
    // the database takes nothing any more, as where its turn comes after the page is gone.
    const field = page.getByRole('textbox', { name: 'Title', exact: true });
    if (round === 3) await page.evaluate(() => { IDBObjectStore.prototype.put = () => { throw new DOMException('too late', 'AbortError'); }; });
    await loadedAgain(page, () => field.evaluate((input, name) => {
      for (const value of ['In between', name]) {
        input.value = value;
        input.dispatchEvent(new Event('input', { bubbles: true }));
        input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
      }
      location.reload();
    }, `Second ${round}`));
    await page.getByRole('application').waitFor();
    assert.equal(await title(page), `Second ${round}`);
    await stage(page, 'Site');
  }
});

test('two tabs that change one job are told, and both versions stay', async () => {
  await fresh();
  await openDemo(page);
  await stage(page, 'Site');
  const other = await context.newPage();
  await other.goto(page.url());
  await other.getByRole('application').waitFor();
  await rename(page, 'From the first tab');
  await saved(page);
  await rename(other, 'From the second tab');
  const dialog = other.getByRole('dialog', { name: 'This job was saved elsewhere' });
  await dialog.waitFor();
  await dialog.getByText('Title', { exact: true }).waitFor();
  await dialog.getByRole('button', { name: 'Go on with the other version' }).click();
  assert.equal(await title(other), 'From the first tab');
  await other.getByRole('banner').getByRole('button', { name: /^Undo/ }).click();
  assert.equal(await title(other), 'From the second tab');
  await saved(other);
  await other.getByRole('button', { name: 'More for this job' }).click();
  await other.getByRole('menuitem', { name: 'Versions' }).click();
  await other.getByRole('dialog').getByRole('listitem').nth(2).waitFor();
});

/** The file that the page hands out, by its path. */
async function exported() {
  await page.getByRole('button', { name: 'More for this job' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
  assert.equal(download.suggestedFilename(), 'the-ostrey-garden.zip');
  return download.path();
}

const reader = resolve(import.meta.dirname, '../../../docs/read_export.py');
const hashOfDocument = (file) => execFileSync('python3', ['-c', 'import hashlib, sys, zipfile; print(hashlib.sha256(zipfile.ZipFile(sys.argv[1]).read("job.json")).hexdigest())', file], { encoding: 'utf8' });
const take = (buffer) => page.getByLabel('Job file').setInputFiles({ name: 'again.zip', mimeType: 'application/zip', buffer });

test('a job leaves as a file that reads without the page, and comes back as the same job', async () => {
  await fresh();
  await openDemo(page);
  await saved(page);
  const file = await exported();
  assert.match(execFileSync('python3', [reader, file], { encoding: 'utf8' }), /40 lamps.*\n(.*\n)*All 13 checksums and all sums agree/);
  await page.getByRole('link', { name: 'Jobs' }).click();
  const copy = readFileSync(file);
  await take(copy);
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'The Ostrey garden (imported)');
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  // Where the job is not there yet its document comes back byte for byte, picture and all.
  const hash = hashOfDocument(file);
  await fresh();
  await take(copy);
  await page.getByRole('application').waitFor();
  await saved(page);
  const again = await exported();
  assert.equal(hashOfDocument(again), hash);
  assert.deepEqual(readFileSync(again), copy);
});

test('files that are no jobs are refused in words', async () => {
  await fresh();
  const script = 'import io, sys, zipfile; b = io.BytesIO(); z = zipfile.ZipFile(b, "w"); z.writestr("../job.json", "{}"); z.close(); sys.stdout.buffer.write(b.getvalue())';
  const escaping = execFileSync('python3', ['-c', script]);
  for (const [buffer, words] of [
    ['hello', /The file is no job/],
    ['{"format": "other"}', /no job: its "format"/],
    ['PK\u0003\u0004broken', /no ZIP file, or its end is missing/],
    [escaping, /holds "\.\.\/job\.json", a name that is no plain path inside it\. Nothing was taken in/],
  ]) {
    await page.getByLabel('Job file').setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from(buffer) });
    await page.getByRole('status').getByText(words).waitFor();
  }
  assert.deepEqual(page.complaints, []);
});
