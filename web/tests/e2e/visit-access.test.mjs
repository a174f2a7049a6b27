// SPDX-License-Identifier: Apache-2.0
// The sides of a visit on a phone in every look: nothing serious by axe-core, nothing wider than the screen; in red
// light nothing on the screen but red.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { test } from 'node:test';
import { judge as judgeView, judgedContext, themes } from './axe.mjs';
import { openPage, stage, stand } from './browser.mjs';
import { eightLamps } from './eight-lamps.mjs';
import { begin, phone, read, side, takeJob } from './visit.mjs';

const here = stand();

const judge = (page, view) => judgeView(page, `visit ${view}`, outOfPlace);

async function outOfPlace(page, theme) {
  const wider = await page.evaluate(() => document.querySelector('.side').scrollWidth - document.querySelector('.side').clientWidth);
  return [...(wider > 0 ? [`${wider} px wider than its room`] : []), ...(theme === 'red' ? await page.evaluate(notRed) : [])];
}

// Colours of what is shown in which red at its brightest is joined by more than a little green or blue.
function notRed() {
  const shown = [...document.querySelectorAll('.side *')].flatMap((node) => ['color', 'borderTopColor', 'backgroundColor'].map((key) => getComputedStyle(node)[key]));
  return [...new Set(shown)].filter((colour) => {
    const [r, g, b, a = 1] = colour.match(/[\d.]+/g).map(Number);
    return a > 0 && colour !== 'rgb(0, 0, 0)' && Math.max(g, b) > 0.6 * r;
  });
}

test(`the sides of a visit in ${themes.join(', ')}`, async () => {
  const { width, height } = phone.viewport;
  const context = await judgedContext(here.browser, [width, height], phone);
  const page = await openPage(context, here.site.address);
  await takeJob(page, eightLamps());
  await begin(page, 'Service call');
  await judge(page, 'Read');
  await read(page, 'Output volts', 'T-A', '13.0');
  await read(page, 'Output amps', 'T-A', '1.26');
  await read(page, 'Lamp volts', 'F4', '12.68');
  await read(page, 'Lamp volts', 'F5', '0');
  await page.getByText('✕ outside').first().waitFor();
  await judge(page, 'a reading');
  await page.getByRole('button', { name: /^What / }).tap();
  await page.getByRole('group', { name: 'What to read' }).waitFor();
  await judge(page, 'kinds of reading');
  await page.getByRole('button', { name: /^What / }).tap();
  await page.getByRole('button', { name: /^Where / }).tap();
  await page.getByRole('button', { name: 'Plan', exact: true }).tap();
  await page.getByRole('button', { name: 'Plan', exact: true, pressed: true }).waitFor();
  await judge(page, 'a place on the plan');
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  await judge(page, 'Find');
  await side(page, 'Log');
  await judge(page, 'Log');
  await side(page, 'Visit');
  await judge(page, 'Visit');
  await side(page, 'As built');
  await page.getByRole('region', { name: 'Joints' }).getByRole('button', { name: /^J4/ }).tap();
  await page.getByRole('region', { name: 'Record of J4' }).waitFor();
  await judge(page, 'As built');
  assert.deepEqual(page.complaints, []);
  await context.close();
});

test(`the walk of a garden without a plan in ${themes.join(', ')}`, async () => {
  const read = (name) => JSON.parse(readFileSync(resolve(import.meta.dirname, `../../../examples/inherited/${name}.json`), 'utf8'));
  const facts = { date: '2026-04-02T10:00', kind: 'service', walk: read('walk').runs };
  const log = [{ kind: 'facts', facts, id: 'v1-1', visit: 'v1', device: 'phone', number: 1, at: '2026-04-02T10:00:00.000Z' }];
  const { width, height } = phone.viewport;
  const context = await judgedContext(here.browser, [width, height], phone);
  const page = await openPage(context, here.site.address);
  await takeJob(page, { ...read('garden'), visits: [{ id: 'v1', ...facts, log }] });
  await stage(page, 'Visits');
  await side(page, 'Walk');
  await judge(page, 'Walk');
  await page.getByRole('button', { name: 'Lift it', exact: true }).tap();
  await page.getByRole('button', { name: 'Lift it', exact: true, pressed: true }).waitFor();
  await judge(page, 'a run lifted');
  await page.getByRole('button', { name: 'Which lamp hangs where?' }).tap();
  await page.getByRole('region', { name: 'The wiring found' }).waitFor();
  await judge(page, 'the wiring found');
  assert.deepEqual(page.complaints, []);
  await context.close();
});
