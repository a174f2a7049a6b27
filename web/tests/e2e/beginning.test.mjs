// SPDX-License-Identifier: Apache-2.0
// Ways to begin a job: blank, from a table of lamps, on a picture of any size.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { beforeEach, test } from 'node:test';
import { deflateSync } from 'node:zlib';
import { openPage, stand, title } from './browser.mjs';

const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
});

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc;
});

function chunk(kind, content) {
  const body = Buffer.concat([Buffer.from(kind, 'ascii'), content]);
  let crc = 0xffffffff;
  for (const byte of body) crc = (crc >>> 8) ^ crcTable[(crc ^ byte) & 255];
  const frame = Buffer.alloc(8);
  frame.writeUInt32BE(content.length, 0);
  frame.writeUInt32BE(~crc >>> 0, 4);
  return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
}

// A grey PNG (ISO/IEC 15948) of any size, a few kilobytes on disk.
function greyPng(width, height) {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  const rows = Buffer.alloc((width + 1) * height, 0x80);
  for (let row = 0; row < height; row += 1) rows[row * (width + 1)] = 0;
  return Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))]);
}

async function beginOnPicture(buffer) {
  await page.getByRole('button', { name: 'On a picture' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job on a picture' });
  await dialog.getByLabel('Picture of the plan').setInputFiles({ name: 'plan.png', mimeType: 'image/png', buffer });
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  return dialog;
}

test('a blank job asks little and opens at the site', async () => {
  await page.getByRole('button', { name: 'New job' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job' });
  await dialog.getByLabel('Title').fill('Back yard');
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('application').waitFor();
  assert.equal(await title(page), 'Back yard');
  assert.match(page.url(), /\/site$/);
  assert.deepEqual(page.complaints, []);
});

test('a job with nothing in it opens in every stage, and its plan says how to begin', async () => {
  await page.getByRole('button', { name: 'New job' }).click();
  await page.getByRole('dialog', { name: 'New job' }).getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('application').waitFor();
  const stages = page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button');
  for (const one of await stages.all()) {
    await one.click();
    await page.getByText('Opening …').waitFor({ state: 'detached' });
  }
  assert.doesNotMatch(await stages.filter({ hasText: 'Check' }).textContent(), /sound/);
  await stages.filter({ hasText: 'Site' }).click();
  const ways = page.getByRole('region', { name: 'How to begin' });
  await ways.getByLabel('A picture beneath the plan').setInputFiles({ name: 'plan.png', mimeType: 'image/png', buffer: greyPng(640, 400) });
  await page.getByRole('application').locator('image').waitFor();
  await page.getByRole('main', { name: 'Plan' }).getByRole('paragraph').filter({ hasText: 'Tap two points of the picture' }).waitFor();
  assert.equal(await ways.count(), 0);
  assert.deepEqual(page.complaints, []);
});

test('a table of lamps becomes a job that is wired and checked', async () => {
  await page.getByRole('button', { name: 'From a table of lamps' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job from a table of lamps' });
  const table = 'name,item,x_m,y_m,zone\nOak,bullet-3w-10,5,2,front\nPath 1,path-2w,3,4,front\nPath 2,path-2w,6,4,front\n';
  await dialog.getByLabel('Table of lamps').setInputFiles({ name: 'lamps.csv', mimeType: 'text/csv', buffer: Buffer.from(table) });
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('application').waitFor();
  await page.getByRole('navigation').getByText('3 lights').waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a table with slips is refused with line and reason', async () => {
  await page.getByRole('button', { name: 'From a table of lamps' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job from a table of lamps' });
  await dialog.getByLabel('Table of lamps').setInputFiles({ name: 'lamps.csv', mimeType: 'text/csv', buffer: Buffer.from('name,item\nOak,no-such-item\n') });
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  await dialog.getByRole('alert').getByText(/no-such-item/).first().waitFor();
});

test('a picture of 40 megapixels is scaled down and lies under the plan', async () => {
  await beginOnPicture(greyPng(8000, 5000));
  // Said for some seconds only, which may be over once the picture lies there.
  await page.getByRole('status').getByText(/scaled down to 4096/).waitFor();
  const image = page.getByRole('application').locator('image');
  await image.waitFor();
  assert.equal(await image.getAttribute('width'), '4096');
  await page.reload();
  await image.waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a job with its picture leaves as a file and comes back elsewhere as the very same', async () => {
  const bytesOf = async () => {
    await page.getByRole('button', { name: 'More for this job' }).click();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
    return readFileSync(await download.path());
  };
  await beginOnPicture(greyPng(640, 400));
  await page.getByRole('application').locator('image').waitFor();
  const left = await bytesOf();
  assert.ok(left.includes('pictures/') && left.includes('job.json'));
  await context.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
  await page.getByLabel('Job file').setInputFiles({ name: 'job.zip', mimeType: 'application/zip', buffer: left });
  await page.getByRole('application').locator('image').waitFor();
  assert.equal(await page.getByRole('application').locator('image').getAttribute('width'), '640');
  assert.ok(left.equals(await bytesOf()));
  assert.deepEqual(page.complaints, []);
});

test('pictures that are none, or far too large, are refused before they are decoded', async () => {
  const svg = await beginOnPicture(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'));
  await svg.getByRole('alert').getByText(/no picture that can be read/).waitFor();
  await svg.getByRole('button', { name: 'Cancel' }).click();
  const huge = greyPng(1, 1);
  huge.writeUInt32BE(60_000, 16);
  huge.writeUInt32BE(60_000, 20);
  const dialog = await beginOnPicture(huge);
  await dialog.getByRole('alert').getByText(/60000 × 60000/).waitFor();
});
