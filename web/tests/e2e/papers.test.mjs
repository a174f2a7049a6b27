// SPDX-License-Identifier: Apache-2.0
// Papers in the page against a stand-in for the server, shaped as docs/server-api.md says: made with progress, looked
// at page by page, each downloaded, all as one zip; cancelled; said to be out of date once the job changes.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { after, describe, test } from 'node:test';
import { openPage, stage, stand, until } from './browser.mjs';

const here = stand();
const examples = resolve(import.meta.dirname, '../../../examples');
const garden = JSON.parse(await readFile(`${examples}/ostrey-garden-sound.json`, 'utf8'));
const onePixel = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==', 'base64');
const files = [
  { name: 'proposal.pdf', title: 'Proposal', kind: 'paper', media_type: 'application/pdf', bytes: 120_000, pages: 3, remarks: ['Without the night of view From the street: its photograph is not there. Keep the photograph with the job.'] },
  { name: 'crew.pdf', title: 'Crew set', kind: 'paper', media_type: 'application/pdf', bytes: 2_400_000, pages: 11, remarks: [] },
  { name: 'commissioning.pdf', title: 'Commissioning sheet', kind: 'paper', media_type: 'application/pdf', bytes: 80_000, pages: 2, remarks: [] },
  { name: 'owner.pdf', title: 'Owner’s pack', kind: 'paper', media_type: 'application/pdf', bytes: 300_000, pages: 5, remarks: [] },
  { name: 'materials.csv', title: 'Materials', kind: 'list', media_type: 'text/csv', bytes: 4_000, pages: 0, remarks: [] },
];

/** Answers /api/ as the server does: papers in work tell `share` until `hold.over`. */
async function standIn(context, share, hold) {
  const calls = [];
  const entry = { id: garden.id, revision: 1, changed: '2026-03-02T18:04:11Z' };
  const papers = () => ({ id: 'p1', message: '', ...(hold.over ? { state: 'done', share: 1, files } : { state: 'working', share, files: [] }) });
  await context.route('**/api/**', async (route) => {
    const method = route.request().method();
    const path = new URL(route.request().url()).pathname.replace(/^.*\/api\//, '');
    const json = (body, status = 200) => route.fulfill({ status, contentType: 'application/json', body: JSON.stringify(body) });
    if (path.startsWith('papers')) calls.push(`${method} ${path}`);
    if (path === 'session') return json({ server: 'duskwire', version: '0.2.0', workspace_id: 'w-1', workspace: 'gardens', api: 1 });
    if (path === 'jobs') return json({ jobs: [{ ...entry, archived: false, title: garden.title, client: '', place: '', stage: 'design', created: '2026-03-01', summary: null }] });
    if (path === 'shop-catalogue') return json({ revision: 0, changed: null, document: null });
    if (path.startsWith('jobs/') && method === 'PUT') return json({ ...entry, revision: 2 });
    if (path.startsWith('jobs/')) return json({ ...entry, archived: false, document: garden });
    if (path === 'papers' && method === 'POST') {
      calls.push(JSON.stringify(route.request().postDataJSON().wish));
      return json(papers(), 201);
    }
    if (method === 'DELETE') return json({ id: 'p1' });
    if (path === 'papers/p1') return json(papers());
    if (path.includes('/pages/')) return route.fulfill({ contentType: 'image/png', body: onePixel });
    if (path.startsWith('papers/')) return route.fulfill({ contentType: 'application/octet-stream', body: path });
    return json({ error: { code: 'not_found', message: 'Not here.' } }, 404);
  });
  return calls;
}

for (const { name, ...look } of [
  { name: 'desk', viewport: { width: 1440, height: 900 } },
  { name: 'phone', viewport: { width: 390, height: 844 }, hasTouch: true },
]) {
  describe(`at a ${name}`, () => {
    let context;
    after(() => context?.close());

    async function open(share) {
      await context?.close();
      context = await here.browser.newContext({ ...look, locale: 'en-US', serviceWorkers: 'block' });
      const hold = { over: false };
      const calls = await standIn(context, share, hold);
      const page = await openPage(context, here.site.address);
      await page.getByRole('link', { name: new RegExp(garden.title) }).first().click();
      await page.getByRole('application').waitFor();
      await stage(page, 'Papers');
      return { page, calls, hold };
    }

    test('papers are made, looked at and taken, each and all', async () => {
      const { page, calls, hold } = await open(0.4);
      await page.getByLabel('Paper size').selectOption('a4');
      await page.getByRole('button', { name: 'Make the papers' }).click();
      await page.getByText('40 % made').waitFor();
      hold.over = true;
      const made = page.getByRole('list', { name: 'What was made' });
      await made.waitFor();
      assert.equal(await made.getByRole('listitem').count(), files.length);
      await made.getByText('Without the night of view From the street').waitFor();
      if (name === 'phone') await made.getByRole('button', { name: 'Look at Proposal' }).click();
      await page.getByRole('img', { name: 'Proposal, page 1 of 3' }).waitFor();
      await made.getByRole('button', { name: 'Look at Crew set' }).click();
      await page.getByRole('img', { name: 'Crew set, page 1 of 11' }).waitFor();
      for (const { name: file, title } of files) {
        const [got] = await Promise.all([page.waitForEvent('download'), made.getByRole('button', { name: `Download ${title}` }).click()]);
        assert.ok(got.suggestedFilename().endsWith(file));
        assert.equal(await readFile(await got.path(), 'utf8'), `papers/p1/files/${file}`);
      }
      const [zip] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Everything as one zip' }).click()]);
      assert.equal(await readFile(await zip.path(), 'utf8'), 'papers/p1/zip');
      assert.equal(calls[1], JSON.stringify({ size: 'a4', units: garden.site.units }));
      await stage(page, 'Site');
      await until(() => assert.ok(calls.includes('DELETE papers/p1'), 'the server may forget them'));
      assert.deepEqual(page.complaints.filter((text) => !/404/.test(text)), []);
    });

    test('making them can be cancelled, and nothing comes of it', async () => {
      const { page, calls } = await open(0.2);
      await page.getByRole('checkbox', { name: /^Crew set/ }).uncheck();
      await page.getByRole('button', { name: 'Make the papers' }).click();
      await page.getByText('20 % made').waitFor();
      await page.getByRole('button', { name: 'Cancel' }).click();
      await page.getByRole('button', { name: 'Make the papers' }).waitFor();
      await until(() => assert.ok(calls.includes('DELETE papers/p1')));
      await page.waitForTimeout(600);
      assert.equal(await page.getByRole('list', { name: 'What was made' }).count(), 0);
      assert.deepEqual(JSON.parse(calls[1]).only, ['proposal', 'commissioning', 'owner']);
      assert.equal(calls.at(-1), 'DELETE papers/p1');
    });
  });
}
