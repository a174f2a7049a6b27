// SPDX-License-Identifier: Apache-2.0
// A job that means harm (tests/end_to_end/hostile_job.py) in every view of the page: nothing of it runs, the content
// security policy has nothing to report, nothing is wider than a phone. The demo goes the same way at the desk.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { drawn, openDemo, openPage, rename, stage, stand } from './browser.mjs';

const here = stand();
const root = resolve(import.meta.dirname, '../../..');
const panes = ['Site', 'Objects', 'Layers', 'Properties', 'Findings', 'Levels', 'Choose lamps', 'Price', 'Lamps', 'Outputs', 'Volts along the run', 'Materials'];

// Kept in each document from its first moment on.
function listen() {
  window.breaches = [];
  addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) => window.breaches.push(`${violatedDirective} ${blockedURI} ${sourceFile}`), true);
}

/** Nothing of the job has become a part of the page. */
async function judge(page, view) {
  await drawn(page);
  const seen = await page.evaluate(() => ({
    breaches: window.breaches,
    ran: window.hostile ?? 0,
    // What the texts and ids of the job would bring: the page has no such elements of its own.
    brought: document.querySelectorAll('script:not([src]), img[src="x"], [onerror], [href^="javascript:"], a[href^="data:"]').length,
    wider: document.documentElement.scrollWidth - window.innerWidth,
  }));
  assert.deepEqual(seen, { breaches: [], ran: 0, brought: 0, wider: Math.min(0, seen.wider) }, view);
}

async function walk(page) {
  const id = /#\/job\/([^/]+)/.exec(page.url())[1];
  const narrow = page.viewportSize().width < 900;
  const show = async (pane) => {
    await page.evaluate((hash) => (location.hash = hash), `#/job/${id}/${pane}`);
    await drawn(page);
    await page.getByText('Opening …').waitFor({ state: 'detached' });
    await page.waitForTimeout(150);
  };
  for (const name of ['site', 'placement', 'wiring', 'supply', 'check', 'materials', 'price', 'clock', 'papers', 'visit', 'print', 'planning', 'photograph']) {
    await show(name);
    if (name === 'clock') await page.getByRole('slider', { name: 'Day' }).waitFor();
    await judge(page, name);
    if (name === 'visit') {
      const sides = page.getByRole('navigation', { name: 'Sides of the visit' }).getByRole('button');
      await sides.first().waitFor();
      for (let side = 0; side < (await sides.count()); side += 1) {
        await sides.nth(side).click();
        await judge(page, `visit, side ${side}`);
      }
    }
    if (name === 'photograph') {
      const view = page.getByRole('dialog', { name: 'Photograph' });
      await view.getByRole('application').waitFor();
      for (const step of ['Known wall', 'Surfaces', 'Measure', 'Lamps and night']) {
        await view.getByRole('navigation').getByRole('button', { name: step }).click();
        await judge(page, `photograph, ${step}`);
      }
    }
  }
  await show('placement');
  await page.locator('[data-thing^="luminaire/"]').first().waitFor();
  for (const name of panes) {
    const button = page.getByRole('button', { name, exact: true });
    if ((await button.count()) === 0) continue;
    await button.first().click();
    await judge(page, name);
    if (name === 'Objects') {
      await page.getByRole('region', { name }).or(page.locator('main')).first().getByRole('button').filter({ hasText: /\S/ }).last().scrollIntoViewIfNeeded();
      await judge(page, 'Objects, to their end');
    }
    if (narrow) await page.keyboard.press('Escape');
  }
  await page.locator('[data-thing^="luminaire/"]').first().dispatchEvent('click');
  await page.getByRole('button', { name: 'More for this job' }).click();
  await page.getByRole('menuitem', { name: 'Versions' }).click();
  await page.getByRole('dialog').getByRole('listitem').first().waitFor();
  await judge(page, 'Versions');
  await page.keyboard.press('Escape');
  for (const view of ['', 'catalogue', 'settings']) {
    await page.evaluate((hash) => (location.hash = hash), `#/${view}`);
    await page.waitForTimeout(150);
    await judge(page, view || 'jobs');
  }
  return id;
}

async function begin(size) {
  const context = await here.browser.newContext({ viewport: { width: size[0], height: size[1] }, locale: 'en-US', acceptDownloads: true });
  await context.addInitScript(listen);
  const page = await openPage(context, here.site.address);
  return { context, page };
}

test('the demo in every view gives the content security policy nothing to report', async () => {
  const { context, page } = await begin([1440, 900]);
  await openDemo(page);
  await walk(page);
  assert.deepEqual(page.complaints, []);
  await context.close();
});

test('a job that means harm runs nothing in any view, and none is wider than a phone', async () => {
  const { context, page } = await begin([390, 844]);
  const folder = mkdtempSync(join(tmpdir(), 'hostile-'));
  execFileSync('python3', [resolve(root, 'tests/end_to_end/hostile_job.py'), join(folder, 'job.zip')]);
  await page.getByLabel('Job file').setInputFiles(join(folder, 'job.zip'));
  await page.getByRole('application').waitFor();
  rmSync(folder, { recursive: true });
  const id = await walk(page);
  // Its titles in the two places that a second version adds, and its file.
  await page.evaluate((hash) => (location.hash = hash), `#/job/${id}/placement`);
  await page.getByRole('application').waitFor();
  const other = await context.newPage();
  await other.goto(page.url());
  for (const tab of [page, other]) {
    await tab.getByRole('application').waitFor();
    await tab.getByRole('button', { name: 'Objects' }).click();
    await stage(tab, 'Site');
  }
  await rename(other, `=cmd()"'><img src=x onerror=window.hostile=5>`);
  await other.locator('header').getByText('Saved in this browser').waitFor();
  await other.close();
  await rename(page, '<script>window.hostile=6</script>');
  await page.getByRole('dialog', { name: 'This job was saved elsewhere' }).waitFor();
  await judge(page, 'saved elsewhere');
  await page.getByRole('dialog').getByRole('button', { name: /^Go on with the other/ }).click();
  await page.getByRole('button', { name: 'More for this job' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('menuitem', { name: 'Export to a file' }).click()]);
  assert.match(download.suggestedFilename(), /^[a-z0-9-]+\.zip$/);
  assert.equal(readFileSync(await download.path()).subarray(0, 2).toString(), 'PK');
  await judge(page, 'exported');
  assert.deepEqual(page.complaints, []);
  await context.close();
});
