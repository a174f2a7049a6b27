// SPDX-License-Identifier: Apache-2.0
// Two phones write into the visits of one job while the real `duskwire serve` is killed under them: what is unsent is
// counted since when, and once there is a server again each entry is in what it has stored.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { keptOnDevice, loadedAgain, openPage } from './browser.mjs';
import { servedStand } from './server.mjs';
import { begin, phone, read, side } from './visit.mjs';

const here = servedStand();
const { server } = here;

async function client() {
  const page = await openPage(await here.browser.newContext(phone), server.address);
  await page.getByRole('link', { name: 'The Ostrey garden' }).first().click();
  await page.getByRole('application').waitFor();
  await keptOnDevice(page);
  return page;
}

const line = (page) => page.locator('.unsent');
const readings = async (page) => {
  const { visits } = await page.evaluate(async () => (await (await fetch('/api/jobs/ostrey-garden')).json()).document);
  return visits.flatMap((visit) => visit.readings ?? []).map(({ place, value }) => `${place} ${value}`).sort();
};

test('readings of two phones survive a killed server, and none is lost when both come back', async () => {
  const [one, two] = [await client(), await client()];
  for (const page of [one, two]) {
    await begin(page, 'Service call');
    await line(page).getByText(/^Nothing unsent: workspace .* holds the log/).waitFor();
  }
  await server.kill();
  await read(one, 'Output volts', 'T1-A', '11.9');
  await read(one, 'Output amps', 'T1-A', '8.8');
  await read(two, 'Output volts', 'T2-A', '12.4');
  await line(one).getByText(/^2 unsent since \d\d:\d\d/).waitFor();
  await line(two).getByText(/^1 unsent since \d\d:\d\d/).waitFor();
  // A cold start without the server keeps them, and the count.
  await one.reload();
  await line(one).getByText(/^2 unsent since \d\d:\d\d/).waitFor();
  await server.start();
  for (const page of [one, two]) {
    // The address is that of the open page but for what stands behind #: it loads itself again.
    await loadedAgain(page, () => page.goto(server.address));
    await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
    await page.getByRole('link', { name: 'The Ostrey garden' }).first().click();
    await page.getByRole('application').waitFor();
    await page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: /^Visits/ }).tap();
    await line(page).getByText(/^Nothing unsent/).waitFor();
  }
  assert.deepEqual(await readings(two), ['T1-A 11.9', 'T1-A 8.8', 'T2-A 12.4']);
  assert.equal(await two.getByRole('dialog').count(), 0);
  await side(two, 'Visit');
  assert.equal(await two.getByRole('region', { name: 'Visits of this job' }).getByRole('listitem').count(), 2);
});
