// SPDX-License-Identifier: Apache-2.0
// Each row of the table of faults on a phone of 390 by 844 with the network cut: kind and place are among the first
// three causes that the page shows, with the test that tells it apart; or the page says that volts do not show it, and
// which test does. Which fault shows how: common practice, no source.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { keptOnDevice, openPage, stage, stand } from './browser.mjs';
import { causeWords, faultTable } from './fault-table.mjs';
import { phone, takeJob } from './visit.mjs';

const here = stand();

test('each fault of the table is named among the first, or said to be beyond volts', async () => {
  const context = await here.browser.newContext(phone);
  const page = await openPage(context, here.site.address);
  await keptOnDevice(page);
  await context.setOffline(true);
  const missed = [];
  let count = 0;
  for (const { job, rows } of faultTable()) {
    await page.goto(here.site.address);
    await takeJob(page, job);
    await stage(page, 'Visits');
    for (const [at, row] of rows.entries()) {
      await page.evaluate(open, at);
      await page.locator('.find[aria-busy="false"] .verdict').waitFor();
      const trouble = await judge(page, row);
      if (trouble) missed.push(`${row.state}: ${trouble}`);
      count += 1;
    }
  }
  assert.deepEqual(missed, []);
  assert.equal(count, 37);
  assert.deepEqual(page.complaints, []);
  await context.close();
});

// The page's own keys, pressed as soon as they are there and without the wait for a thumb: other tests tap them, and
// there are 37 rows.
async function open(at) {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  const press = async (within, pick) => {
    const key = () => {
      const keys = [...document.querySelectorAll(`[aria-label="${within}"] button`)];
      return typeof pick === 'number' ? keys[pick] : keys.find((one) => one.textContent === pick);
    };
    const until = performance.now() + 30_000;
    while (!key() && performance.now() < until) await frame();
    key().click();
    await frame();
  };
  await press('Sides of the visit', 'Visit');
  await press('Visits of this job', at);
  await press('Sides of the visit', 'Find');
}

// What is wrong with the page's answer; nothing: undefined.
async function judge(page, { kind, ids = [], says }) {
  const shown = await page.locator('.find').evaluate((find) => ({
    causes: [...find.querySelectorAll('[aria-label="Likely causes"] .ranked > li')].map((item) => item.querySelector('span:not(.bar)').firstChild.textContent.trim()),
    unseen: find.querySelector('[aria-label="What no reading shows"]')?.textContent ?? '',
    all: find.textContent,
    verdict: find.querySelector('.verdict').textContent,
  }));
  if (kind === '') {
    const named = shown.causes[0] !== undefined && !/^Nothing is wrong/.test(shown.causes[0]) && !/do not fit this plan/.test(shown.verdict);
    if (named) return `names ${shown.causes[0]}`;
    return shown.unseen.includes(says) ? undefined : `does not say "${says}" beside what no reading shows: ${shown.unseen}`;
  }
  const found = shown.causes.slice(0, 3).some((text) => ids.some((id) => causeWords[kind](id).test(text)));
  if (!found) return `${kind} of ${ids} is not among ${JSON.stringify(shown.causes.slice(0, 3))}`;
  return shown.all.includes(says) ? undefined : `does not say "${says}": ${shown.causes.join('; ')}`;
}
