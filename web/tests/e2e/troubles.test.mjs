// SPDX-License-Identifier: Apache-2.0
// Bad news in the browser's own storage: a job with errors, storage that is refused, an address without a secure
// origin; and the everyday ways of keeping work.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { launch, openDemo, openPage, rename, stage, stand, title } from './browser.mjs';

const garden = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../examples/ostrey-garden.json'), 'utf8'));
const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
});

const saved = () => page.locator('header').getByText('Saved in this browser').waitFor();
const take = (job) => page.getByLabel('Job file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });

test('a job with errors opens, is drawn as far as it goes, and says what is wrong', async () => {
  page = await openPage(context, here.site.address);
  const broken = structuredClone(garden);
  broken.luminaires[0].item = 'no-such-light';
  broken.cables[0].depth_m = 'deep';
  await take(broken);
  await page.getByRole('application').waitFor();
  assert.ok((await page.locator('[data-thing^="luminaire/"]').count()) >= 39);
  await stage(page, 'Check');
  await page.getByRole('button', { name: 'Findings' }).click();
  await page.getByText(/In the job file: \/cables\/0\/depth_m/).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('storage that is refused: the page says so and still works', async () => {
  await context.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: { open: () => { throw new DOMException('Refused.', 'SecurityError'); } } }));
  page = await openPage(context, here.site.address);
  await page.getByText(/does not let the page keep anything.*gone when this tab is closed/).waitFor();
  await openDemo(page);
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await page.locator('header').getByText('Saved in this tab only').waitFor();
  await page.getByRole('button', { name: 'More for this job' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
  assert.ok(readFileSync(await download.path()).length > 1000);
  assert.deepEqual(page.complaints, []);
});

test('undo and redo go on after a reload', async () => {
  page = await openPage(context, here.site.address);
  await openDemo(page);
  await stage(page, 'Site');
  await rename(page, 'One');
  await rename(page, 'Two');
  await page.getByRole('button', { name: /^Undo/ }).click();
  assert.equal(await title(page), 'One');
  await saved();
  await page.reload();
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'One');
  await page.getByRole('button', { name: 'Redo: Title' }).click();
  assert.equal(await title(page), 'Two');
  await page.getByRole('button', { name: 'Undo: Title' }).click();
  await page.getByRole('button', { name: 'Undo: Title' }).click();
  assert.equal(await title(page), garden.title);
});

test('a job is duplicated, and archived without being lost', async () => {
  page = await openPage(context, here.site.address);
  await openDemo(page);
  await saved();
  await page.getByRole('link', { name: 'Jobs' }).click();
  await page.getByRole('button', { name: `More for ${garden.title}` }).click();
  await page.getByRole('menuitem', { name: 'Duplicate' }).click();
  await page.getByRole('link', { name: `${garden.title} (copy)` }).waitFor();
  await page.getByRole('button', { name: `More for ${garden.title} (copy)` }).click();
  await page.getByRole('menuitem', { name: 'Archive' }).click();
  await page.getByRole('link', { name: `${garden.title} (copy)` }).waitFor({ state: 'detached' });
  await page.getByRole('status').getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('link', { name: `${garden.title} (copy)` }).waitFor();
});

test('at a bare network address the page says that it cannot start offline, offers files, and works', async () => {
  // A name that is not this computer's own is no secure origin, wherever it leads.
  const outside = await launch(['--host-resolver-rules=MAP garden.example 127.0.0.1']);
  try {
    const there = await outside.newContext({ viewport: { width: 390, height: 844 } });
    page = await openPage(there, here.site.address.replace(/localhost|127\.0\.0\.1/, 'garden.example'));
    assert.equal(await page.evaluate(() => window.isSecureContext), false);
    await page.getByText(/neither start without signal.*Hand jobs over as files/).waitFor();
    await openDemo(page);
    await page.getByRole('navigation').getByText('3 errors').waitFor();
    await page.getByRole('button', { name: 'More for this job' }).click();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
    assert.equal(download.suggestedFilename(), 'the-ostrey-garden.zip');
  } finally {
    await outside.close();
  }
});
