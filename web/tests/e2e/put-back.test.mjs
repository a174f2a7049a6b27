// SPDX-License-Identifier: Apache-2.0
// A backup is put back while pages have gone on: nothing that was saved after it is overwritten, nothing that only a page
// has is lost, and the demo's photograph is there without a hand.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { judge, judgedContext } from './axe.mjs';
import { loadedAgain, openPage, rename, stage, title, until } from './browser.mjs';
import { servedStand } from './server.mjs';

const here = servedStand();
const { server } = here;

const stored = (page) => page.evaluate(async () => (await (await fetch('/api/jobs/ostrey-garden')).json()).document.title);
// waitForFunction takes the promise of an answer for the answer.
const isStored = (page, name) => until(async () => assert.equal(await stored(page), name));

async function saveAs(page, name) {
  await rename(page, name);
  await isStored(page, name);
  await page.locator('header').getByText('Saved in workspace').waitFor();
}

async function client() {
  return openPage(await judgedContext(here.browser, [1440, 900]), server.address);
}

async function openGarden(page) {
  await page.getByRole('link', { name: /garden/ }).first().click();
  await page.getByRole('application').waitFor();
  await stage(page, 'Site');
}

test('a job that was added at the start has its photograph', async () => {
  const page = await client();
  const status = await page.evaluate(async () => {
    const { document } = await (await fetch('/api/jobs/ostrey-garden')).json();
    return (await fetch(`/api/images/${document.views[0].image}`)).status;
  });
  assert.equal(status, 200);
  await page.context().close();
});

test('a page from before it meets its number again, and both versions are there', async () => {
  const page = await client();
  await openGarden(page);
  await saveAs(page, 'The garden of the backup');
  const backup = server.backUp('backup');
  await saveAs(page, 'The garden as this page alone has it');
  await server.putBack(backup);
  const other = await client();
  await openGarden(other);
  assert.equal(await title(other), 'The garden of the backup');
  await saveAs(other, 'The garden after the restore');

  // The number that the page knows is there, and names another revision.
  await loadedAgain(page, () => page.goto(server.address));
  await page.getByRole('link', { name: /restore/ }).first().click();
  const dialog = page.getByRole('dialog', { name: 'The workspace was put back' });
  await dialog.getByText('Title', { exact: true }).waitFor();
  assert.equal(await stored(page), 'The garden after the restore');
  for (const [width, height] of [[1440, 900], [390, 844]]) {
    await page.setViewportSize({ width, height });
    await judge(page, 'A backup was put back');
  }
  await dialog.getByRole('button', { name: 'Go on with mine' }).click();
  await isStored(page, 'The garden as this page alone has it');
  const versions = await page.evaluate(async () => {
    const { revisions } = await (await fetch('/api/jobs/ostrey-garden/revisions')).json();
    const read = async ({ revision }) => (await (await fetch(`/api/jobs/ostrey-garden/revisions/${revision}`)).json()).document.title;
    return Promise.all(revisions.slice(0, 2).map(read));
  });
  assert.deepEqual(versions, ['The garden as this page alone has it', 'The garden after the restore']);
  // The browser itself says that a save was refused, and where the page asked a server that was started anew before it
  // had its cookie again.
  assert.deepEqual(page.complaints.filter((words) => !/409 \(Conflict\)|401 \(Unauthorized\)/.test(words)), []);
  await Promise.all([page, other].map((one) => one.context().close()));
});
