// SPDX-License-Identifier: Apache-2.0
// Price and papers on the real `duskwire serve`: a lamp goes, the price moves, and the papers that are made then are
// what they say: each is fetched, the proposal names the price that the page shows and opens with the night of the
// photograph, and the archive is whole. With axe-core on the page of made papers in every theme.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { test } from 'node:test';
import { judge, judgedContext, themes } from './axe.mjs';
import { openPage, stage } from './browser.mjs';
import { servedStand } from './server.mjs';

const here = servedStand();
const { server } = here;
const photograph = await readFile(resolve(import.meta.dirname, '../../../examples/ostrey-front.jpg'));
const papers = ['proposal.pdf', 'crew.pdf', 'commissioning.pdf', 'owner.pdf'];

async function openGarden(page) {
  await page.getByRole('link', { name: 'The Ostrey garden' }).first().click();
  await page.getByRole('application').waitFor();
}

const told = (program, ...given) => {
  const { status, stdout, stderr } = spawnSync(program, given, { encoding: 'utf8' });
  assert.equal(status, 0, `${program}: ${stderr}`);
  return stdout;
};

/** Entries of an archive by Python's own reader, which checks each against its sum. */
const entriesOf = (path) =>
  JSON.parse(told('python3', '-c', 'import json, sys, zipfile\nz = zipfile.ZipFile(sys.argv[1])\nassert z.testzip() is None\nprint(json.dumps({i.filename: [i.file_size, z.read(i)[:5].decode("latin-1")] for i in z.infolist()}))', path));

/** Puts the photograph into the workspace and its name there, which may be another, into the job. */
async function sendPhotograph(page) {
  const hash = createHash('sha256').update(photograph).digest('hex');
  const saved = await page.evaluate(async ([name, text]) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const kept = await (await fetch(`/api/images/${name}`, { method: 'POST', headers: { 'Content-Type': 'image/jpeg' }, body: bytes })).json();
    const { document, revision } = await (await fetch('/api/jobs/ostrey-garden')).json();
    document.views[0].image = kept.hash;
    const body = JSON.stringify({ base_revision: revision, save_id: 'photograph', document });
    return (await fetch('/api/jobs/ostrey-garden', { method: 'PUT', headers: { 'Content-Type': 'application/json' }, body })).status;
  }, [hash, photograph.toString('base64')]);
  assert.equal(saved, 200);
}

async function make(page) {
  await stage(page, 'Papers');
  await page.getByRole('button', { name: 'Make the papers' }).click();
  const made = page.getByRole('list', { name: 'What was made' });
  await made.waitFor({ timeout: 180_000 });
  return made;
}

async function taken(page, button) {
  const [got] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return got.path();
}

test('a lamp goes, the price moves, and every paper that is made then is what it says', async () => {
  const page = await openPage(await here.browser.newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-US' }), server.address);
  await sendPhotograph(page);
  await openGarden(page);
  await page.getByRole('button', { name: 'Price', exact: true, expanded: false }).click();
  const total = page.locator('.total strong');
  await total.waitFor();
  const before = await total.textContent();
  // Before the volts are there, rows still change their places.
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await page.locator('tbody th button').first().click();
  await page.getByRole('application').focus();
  await page.keyboard.press('Delete');
  await page.getByRole('region', { name: 'Why the price moved' }).getByText(/went down/).first().waitFor();
  const after = await total.textContent();
  assert.notEqual(after, before);

  const made = await make(page);
  assert.equal(await made.getByText('Without the night').count(), 0);
  await page.getByRole('img', { name: /page 1 of/ }).first().waitFor();
  for (const [index, title] of ['Lighting proposal', 'Crew set', 'Commissioning sheet', 'Owner’s pack'].entries()) {
    const path = await taken(page, made.getByRole('button', { name: new RegExp(`^Download ${title}`) }).first());
    assert.equal((await readFile(path)).subarray(0, 5).toString(), '%PDF-', title);
    if (index > 0) continue;
    const amount = /[\d,.]+\d/.exec(after)[0];
    assert.ok(told('pdftotext', path, '-').replaceAll(/\s+/g, ' ').includes(`${amount} USD in all`), `the proposal asks for ${amount}`);
    assert.match(told('pdfimages', '-list', '-l', '1', path), /jpeg/);
  }
  const path = await taken(page, page.getByRole('button', { name: 'Everything as one zip' }));
  const entries = entriesOf(path);
  for (const name of papers) assert.equal(entries[name][1], '%PDF-', name);
  for (const name of ['materials.csv', 'lists.xlsx', 'plan.dxf', 'plan.svg', 'care.ics']) assert.ok(entries[name][0] > 100, name);
  assert.deepEqual(page.complaints, []);
  await page.context().close();
});

test(`made papers in ${themes.join(', ')}`, async () => {
  const context = await judgedContext(here.browser, [390, 844]);
  const page = await openPage(context, server.address);
  await openGarden(page);
  await stage(page, 'Papers');
  for (const name of [/^Proposal/, /^Crew set/, /^Commissioning/]) await page.getByRole('checkbox', { name }).uncheck();
  const made = await make(page);
  await made.getByRole('button', { name: /^Look at/ }).first().click();
  await page.getByRole('img', { name: /page 1 of/ }).first().waitFor();
  await judge(page, 'Made papers');
  // The whole job as one file takes the papers along, and reads without the program.
  await page.getByRole('button', { name: 'More for this job' }).click();
  const [file] = await Promise.all([page.waitForEvent('download', { timeout: 120_000 }), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
  const path = await file.path();
  assert.match(told('python3', resolve(import.meta.dirname, '../../../docs/read_export.py'), path), /checksums and all sums agree/);
  const entries = entriesOf(path);
  for (const name of papers) assert.equal(entries[`papers/${name}`][1], '%PDF-', name);
  await context.close();
});
