// SPDX-License-Identifier: Apache-2.0
// A visit on a phone of 390 by 844 with the network cut, its readings typed by touch: a commissioning that finds a bad
// splice, a service call that knows where to dig, a loop with one conductor open. Expected figures are those of
// hand calculations (a scalar RMS network, copper at 20 C, shares by weights of 3 : 1 : 3); the command is asked the same.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { keptOnDevice, openPage, stage, stand } from './browser.mjs';
import { eightLamps } from './eight-lamps.mjs';
import { twoSplices } from './two-splices.mjs';
import { begin, causes, choose, phone, read, see, side, takeJob } from './visit.mjs';

const program = resolve(import.meta.dirname, '../../..', process.env.DUSKWIRE_PROGRAM ?? 'build/release/duskwire');
const trench = readFileSync(resolve(import.meta.dirname, '../../../examples/ostrey-front.jpg'));
const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext(phone);
  page = await openPage(context, here.site.address);
  // Kept on the device by now: from here on nothing comes over the network.
  await keptOnDevice(page);
});

async function cut(job) {
  await takeJob(page, job);
  await context.setOffline(true);
}

// What the command says of the same job with the same readings.
function command(job, visit) {
  const folder = mkdtempSync(join(tmpdir(), 'duskwire-visit-'));
  try {
    const file = join(folder, 'job.json');
    writeFileSync(file, JSON.stringify({ ...job, visits: [visit] }));
    // It ends with 1 where the readings name an error.
    return JSON.parse(spawnSync(program, ['locate', file, '--json'], { encoding: 'utf8' }).stdout);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const volts = (place, value) => ({ place, quantity: 'voltage', value, unit: 'V' });
const amps = (place, value, more = {}) => ({ place, quantity: 'current', value, unit: 'A', ...more });
const rank = (text) => Number(/(\d+) %/.exec(text)?.[1]);

test('a commissioning finds the splice that all lamps lit would hide, and tells a dead lamp apart', async () => {
  await cut(twoSplices());
  await begin(page, 'Commissioning');
  await side(page, 'Visit');
  await page.getByLabel('Meter', { exact: true }).fill('clamp meter 4');
  await page.getByLabel('Meter', { exact: true }).press('Enter');
  await side(page, 'Read');
  const lamps = [...['F1', 'F2', 'F3', 'F4'].map((id) => [id, '11.78']), ...['F5', 'F6', 'F7'].map((id) => [id, '10.99']), ['F8', '10.88']];
  await read(page, 'Output amps', 'T-A', '3.68');
  for (const [id, value] of lamps) await read(page, 'Lamp volts', id, value);
  // 10.88 at F8, planned 11.51: at once, with sign and tolerance.
  const last = page.getByRole('region', { name: 'The last reading' });
  await last.getByText('✕ outside').waitFor();
  assert.match(await last.textContent(), /plan 11\.5\d V/);
  assert.match(await last.textContent(), /−0\.6\d V/);
  const [first] = await causes(page);
  const told = command(twoSplices(), { date: '2026-04-02', kind: 'commissioning', readings: [amps('T-A', 3.68), ...lamps.map(([id, value]) => volts(id, Number(value)))] });
  assert.ok(first.includes(told.causes[0].text), `${first} is not ${told.causes[0].text}`);
  const [, ohm] = /(\d\.\d+) ohm/.exec(first);
  assert.ok(Math.abs(Number(ohm) - 0.35) <= 0.05, first);
  assert.match(first, /in C2 or its splices|S2/);
  const elsewhere = (await page.getByRole('region', { name: 'Places' }).getByRole('listitem').allTextContents()).filter((text) => /\bC1\b|output T-A/.test(text) && rank(text) >= 5);
  assert.deepEqual(elsewhere, [], 'neither the first splice nor the tap');
  assert.ok(!(await page.locator('.verdict').textContent()).includes('as planned'), 'all lit is not a pass');
  // The log has each reading with what was predicted, the difference, the meter and the day.
  await side(page, 'Log');
  const log = page.getByRole('region', { name: 'Entries' });
  assert.match(await log.getByRole('listitem').filter({ hasText: /F8, volts: 10\.88 V/ }).textContent(), /plan 11\.5\d V.*−0\.6\d V.*± \d\.\d\d V.*outside/s);
  await side(page, 'Visit');
  const visit = page.getByRole('region', { name: 'This visit' });
  await visit.getByRole('heading', { name: /^Commissioning, 20\d\d-\d\d-\d\d \d\d:\d\d/ }).waitFor();
  assert.equal(await visit.getByLabel('Meter', { exact: true }).inputValue(), 'clamp meter 4');

  // Another day: sound splices, F3 dead and all others lit, which one key says.
  await page.getByRole('region', { name: 'Begin a visit' }).getByRole('button', { name: 'Commissioning' }).tap();
  await page.getByRole('button', { name: /^What / }).waitFor();
  await read(page, 'Output amps', 'T-A', '3.04');
  await read(page, 'Lamp volts', 'F1', '11.99');
  await read(page, 'Lamp volts', 'F8', '11.68');
  await see(page, 'Lamp seen', 'F3', 'Dark');
  await page.getByRole('button', { name: 'All others lit (7)' }).tap();
  await page.getByRole('region', { name: 'The last reading' }).getByText('F8, seen: lit').waitFor();
  assert.equal(await page.getByRole('button', { name: /^All (others )?lit/ }).count(), 0, 'nothing is left to see');
  assert.match((await causes(page))[0], /F3/);
  await side(page, 'Log');
  assert.equal(await log.getByText(/^F[1245678], seen: lit/).count(), 7);
  assert.deepEqual(page.complaints, []);
});

test('a service call ends at the right hole: bracket, dig order with tapes and depth, and a reading that drops the first', async () => {
  await cut(eightLamps());
  await begin(page, 'Service call');
  await side(page, 'As built');
  for (const joint of ['J4', 'J5']) {
    await page.getByRole('region', { name: 'Joints' }).getByRole('button', { name: new RegExp(`^${joint}`) }).tap();
    const record = page.getByRole('region', { name: `Record of ${joint}` });
    await record.locator('input[type="file"]').setInputFiles({ name: 'trench.jpg', mimeType: 'image/jpeg', buffer: trench });
    await record.getByRole('img').waitFor();
  }
  await side(page, 'Visit');
  await page.getByLabel('What is wrong, in the owner’s words').fill('half are dark; we planted roses by F7 last week');
  await page.getByLabel('Age of the wiring').fill('5');
  await page.getByLabel('Age of the wiring').press('Enter');
  await page.getByLabel('Dug or planted near').selectOption('J7');
  await side(page, 'Read');
  await read(page, 'Output volts', 'T-A', '13.0');
  await read(page, 'Output amps', 'T-A', '1.26');
  await read(page, 'Lamp volts', 'F4', '12.68');
  await read(page, 'Lamp volts', 'F5', '0');
  await causes(page);
  const where = page.getByRole('region', { name: 'Places' }).getByRole('listitem').first();
  const within = where.getByRole('listitem');
  const shares = async () => Object.fromEntries((await within.allTextContents()).map((text) => [text.replace(/^\d+ % */, '').trim(), rank(text)]));
  // 3 : 1 : 3, and no word of C7, where the roses are.
  assert.deepEqual(Object.values(await shares()).sort(), [14, 43, 43]);
  assert.ok(Object.keys(await shares()).every((text) => /C5|J4|J5|F4|F5/.test(text)), JSON.stringify(await shares()));
  const spots = page.getByRole('region', { name: 'Where to look first' }).getByRole('article');
  const told = command(eightLamps(), {
    date: '2031-05-20', kind: 'service', complaint: 'half are dark; we planted roses by F7 last week', answers: { age_years: 5, dug_near: ['J7'] },
    readings: [volts('T-A', 13), amps('T-A', 1.26), volts('F4', 12.68), volts('F5', 0)],
  });
  assert.equal(told.dig_order[0].id, 'J4');
  for (const index of [0, 1]) assert.ok((await spots.nth(index).textContent()).includes(told.dig_order[index].text));
  const spot = (await spots.first().textContent()).replaceAll('\u00a0', ' ');
  // Mulch before lawn; tapes and depth as recorded; the caution where the spade is.
  for (const words of ['12 min', 'house corner 14.00 m', 'gate post 11.00 m', '0.15 m', 'marks']) assert.ok(spot.includes(words), `${words} in ${spot}`);
  assert.match((await spots.nth(1).textContent()).replaceAll('\u00a0', ' '), /30 min.*J5.*house corner 15\.00 m.*gate post 12\.00 m/s);
  for (const [index, joint] of ['J4', 'J5'].entries()) {
    const picture = spots.nth(index).getByRole('img', { name: `The open trench at ${joint}` });
    assert.ok(await picture.evaluate((image) => image.decode().then(() => image.naturalWidth > 0)));
  }
  // F4 outgoing, under load: the first hole drops out, 25 : 75 remain.
  await side(page, 'Read');
  await read(page, 'Cable end volts', 'C5', '12.7', 'Beside J4');
  await causes(page);
  const left = Object.values(await shares()).filter((share) => share > 1).sort();
  assert.deepEqual(left, [25, 75]);
  assert.deepEqual(page.complaints, []);
});

test('all are lit, and still a splice of half an ohm is found', async () => {
  await cut(eightLamps());
  await begin(page, 'Service call');
  for (const [kind, place, value] of [['Output volts', 'T-A', '13.0'], ['Output amps', 'T-A', '2.70'], ['Lamp volts', 'F4', '12.20'], ['Lamp volts', 'F5', '11.43']]) await read(page, kind, place, value);
  await choose(page, 'Lamp seen', 'F1');
  await page.getByRole('button', { name: 'All lit (8)' }).tap();
  const [first] = await causes(page);
  const [, ohm] = /(\d\.\d+) ohm/.exec(first);
  assert.ok(Math.abs(Number(ohm) - 0.5) <= 0.1, first);
  assert.match(first, /C5/);
});

test('a clamp finds the open conductor of a loop in which every lamp is lit, and says what no reading shows', async () => {
  await cut(eightLamps({ loop: true }));
  await begin(page, 'Yearly care');
  await choose(page, 'Lamp seen', 'F1');
  await page.getByRole('button', { name: 'All lit (8)' }).tap();
  await read(page, 'Cable amps', 'C1', '0.62', 'One conductor');
  await read(page, 'Cable amps', 'C1', '1.26', 'The other');
  await read(page, 'Cable amps', 'C1', '0.64', 'Whole cable');
  const [first] = await causes(page);
  assert.match(first, /One conductor open in C3 between J2 and J3/);
  assert.match(await page.getByRole('region', { name: 'What no reading shows' }).textContent(), /C5 between J4 and J5.*Lift one leg/);
});

test('a wrong reading is struck, not erased; the log is signed, handed over, and taken in by another phone', async () => {
  await cut(twoSplices());
  await begin(page, 'Service call');
  await read(page, 'Output volts', 'T-A', '1.30');
  await page.getByRole('region', { name: 'The last reading' }).getByRole('button', { name: 'Strike it' }).tap();
  await read(page, 'Output volts', 'T-A', '13.0');
  await side(page, 'Log');
  const entries = page.getByRole('region', { name: 'Entries' });
  await entries.getByText('struck: Entered by mistake').waitFor();
  assert.equal(await entries.locator('s').count(), 1);
  await page.getByLabel('Who stands for these readings').fill('Ada');
  await page.getByLabel('Who stands for these readings').press('Enter');
  await page.getByRole('button', { name: /^Sign off \d+ entries/ }).tap();
  await page.getByText(/^Signed off by Ada at/).waitFor();
  // Undo is for the plan: it takes nothing out of the log.
  assert.ok(await page.getByRole('banner').getByRole('button', { name: 'Undo', exact: true }).isDisabled());
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Log as a file' }).tap()]);
  const file = JSON.parse(readFileSync(await download.path(), 'utf8'));
  assert.equal(file.entries.filter(({ entry }) => entry.kind === 'reading').length, 2);
  assert.ok(file.entries.every(({ hash }) => /^[0-9a-f]{64}$/.test(hash)));

  const other = await here.browser.newContext(phone);
  const second = await openPage(other, here.site.address);
  await takeJob(second, twoSplices());
  await begin(second, 'Service call');
  await read(second, 'Lamp volts', 'F8', '11.51');
  await side(second, 'Log');
  await second.getByLabel('Take a log in').setInputFiles({ name: 'log.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(file)) });
  await second.getByText(`${file.entries.length} entries came in.`).waitFor();
  await side(second, 'Visit');
  const visits = await second.getByRole('region', { name: 'Visits of this job' }).getByRole('listitem').allTextContents();
  assert.equal(visits.length, 2);
  assert.ok(visits.some((text) => text.includes('signed: Ada')), visits.join());
  await other.close();
});

test('what does not fit the plan is said, with what to check', async () => {
  await cut(eightLamps());
  await begin(page, 'Service call');
  // Volts that rise along the run under load: no fault of this plan does that.
  for (const [place, value] of [['F1', '10.2'], ['F3', '12.9'], ['F5', '10.8'], ['F7', '12.95'], ['F8', '10.1']]) await read(page, 'Lamp volts', place, value);
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  assert.match(await page.locator('.verdict').textContent(), /do not fit this plan/);
  assert.ok((await page.getByRole('region', { name: 'What to check' }).getByRole('listitem').count()) >= 3);
});

test('the next reading is set up by one key, says what each outcome would mean, and every key fits a glove', async () => {
  await cut(eightLamps());
  await begin(page, 'Service call');
  await side(page, 'Find');
  const next = page.getByRole('region', { name: 'Next reading' }).getByRole('article').first();
  await next.waitFor();
  assert.ok((await next.getByRole('listitem').count()) >= 2);
  const wanted = await next.getByRole('heading').textContent();
  await next.getByRole('button', { name: 'Read this' }).tap();
  await page.getByText(`Wanted: ${wanted}`).waitFor();
  await choose(page, 'Lamp volts', 'F1');
  for (const button of await page.locator('.visit button:visible').all()) {
    const box = await button.boundingBox();
    const name = (await button.getAttribute('aria-label')) ?? (await button.textContent());
    assert.ok(box.height >= 56 && box.width >= 44, `${name}: ${box.width} x ${box.height}`);
  }
});

test('a job begun without signal is there after a cold start, and so is its log', async () => {
  await cut(twoSplices());
  await begin(page, 'Service call');
  await read(page, 'Output volts', 'T-A', '13.0');
  await page.reload();
  await page.getByText(/^T-A.*13\.00 V/).or(page.getByRole('button', { name: /^What / })).first().waitFor();
  await stage(page, 'Visits');
  await side(page, 'Log');
  await page.getByRole('region', { name: 'Entries' }).getByText(/^T-A.*13\.00 V/).waitFor();
});
