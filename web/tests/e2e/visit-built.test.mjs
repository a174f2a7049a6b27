// SPDX-License-Identifier: Apache-2.0
// On a phone of 390 by 844 with the network cut: what has drifted since an earlier visit and what each run would still
// bear; an as-built record filled in with tapes, depth and a picture; the gate passed with a reason.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { keptOnDevice, openPage, stand } from './browser.mjs';
import { eightLamps } from './eight-lamps.mjs';
import { begin, phone, read, side, takeJob } from './visit.mjs';

const here = stand();
const photograph = readFileSync(resolve(import.meta.dirname, '../../../examples/ostrey-front.jpg'));
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext(phone);
  page = await openPage(context, here.site.address);
  await keptOnDevice(page);
});

async function cut(job) {
  await takeJob(page, job);
  await context.setOffline(true);
}

const volts = (place, value) => ({ place, quantity: 'voltage', value, unit: 'V' });

test('a run that has lost volts since March is told, with what of it is the run’s; room for more lamps stands below', async () => {
  const job = { ...eightLamps(), visits: [{ date: '2026-03-02', kind: 'commissioning', readings: [volts('T-A', 13), volts('F8', 12.08)] }] };
  await cut(job);
  await begin(page, 'Yearly care');
  await read(page, 'Output volts', 'T-A', '12.9');
  await read(page, 'Lamp volts', 'F8', '11.68');
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  const since = page.getByRole('region', { name: 'Since earlier visits' });
  await since.getByText('F8 has lost 0.40 V since 2026-03-02, -0.30 V of it on the run from T-A').waitFor();
  await page.getByText('Room for more lamps').tap();
  await page.getByText(/^T-A:.*\d+.VA.*at its farthest place/).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a test by hand stands beside each cause, and what volts do not show beside a sound run', async () => {
  await cut(eightLamps());
  await begin(page, 'Yearly care');
  for (const [place, value] of [['F1', '12.51'], ['F4', '12.23'], ['F5', '12.17'], ['F8', '12.08']]) await read(page, 'Lamp volts', place, value);
  await read(page, 'Output amps', 'T-A', '2.61');
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  const unseen = page.getByRole('region', { name: 'What no reading shows' });
  await unseen.getByText(/Wrong hours/).waitFor();
  await unseen.getByText(/shade the photocell/).waitFor();
  await side(page, 'Read');
  await read(page, 'Lamp volts', 'F6', '11.2');
  await read(page, 'Lamp volts', 'F7', '11.15');
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  assert.deepEqual(page.complaints, []);
});

test('an as-built record is filled in with tapes, depth and a picture; the gate is passed with a reason that the log keeps', async () => {
  const job = eightLamps();
  const bare = { ...job, joints: job.joints.map(({ as_built, ...joint }) => (['J4', 'J5'].includes(joint.id) ? joint : { ...joint, as_built })) };
  await cut(bare);
  await begin(page, 'Installation');
  await side(page, 'As built');
  const gate = page.getByRole('region', { name: 'Ready to backfill' });
  const joints = page.getByRole('region', { name: 'Joints' });
  const lacking = async () => Number(/Not ready: (\d+) of 8/.exec(await gate.textContent())?.[1] ?? 0);
  const before = await lacking();
  assert.ok(before >= 2, await gate.textContent());
  await joints.getByRole('button', { name: /^J4/ }).tap();
  const record = page.getByRole('region', { name: 'Record of J4' });
  await record.getByLabel('First tape from').selectOption({ label: 'house corner' });
  await record.getByLabel('Second tape from').selectOption({ label: 'gate post' });
  for (const [label, value] of [['First tape', '32.5'], ['Second tape', '14.01'], ['Depth of cover', '0.15']]) {
    const field = record.getByLabel(label, { exact: true });
    await field.fill(value);
    await field.press('Enter');
  }
  await record.locator('input[type="file"]').setInputFiles({ name: 'trench.jpg', mimeType: 'image/jpeg', buffer: photograph });
  const picture = record.getByRole('img', { name: /open trench at J4/ });
  await picture.waitFor();
  assert.ok(await picture.evaluate((image) => image.decode().then(() => image.naturalWidth > 0)));
  await record.getByLabel('The joint is made').check();
  await joints.getByRole('button', { name: /^J4.*recorded/ }).waitFor();
  assert.equal(await lacking(), before - 1);

  await gate.getByText('Close the trench all the same').tap();
  const close = gate.getByRole('button', { name: /^Close it without/ });
  assert.ok(await close.isDisabled(), 'not without a reason');
  await gate.getByLabel('Reason, for the log').fill('storm coming');
  await gate.getByLabel('Reason, for the log').press('Enter');
  await close.tap();
  await side(page, 'Log');
  const entries = page.getByRole('region', { name: 'Entries' });
  await entries.getByText(/^Closed without a record of .*J5.*: storm coming/).waitFor();
  assert.ok(!(await entries.textContent()).includes('without a record of J4'));

  // A cold start without signal: record, picture and reason are there.
  await page.reload();
  await page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: /^Visits/ }).tap();
  await side(page, 'As built');
  await joints.getByRole('button', { name: /^J4.*recorded/ }).tap();
  await record.getByRole('img', { name: /open trench at J4/ }).waitFor();
  assert.equal(await record.getByLabel('Second tape', { exact: true }).inputValue(), '14.01');
  assert.deepEqual(page.complaints, []);
});
