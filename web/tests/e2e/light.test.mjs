// SPDX-License-Identifier: Apache-2.0
// Light in the panes on the real engine, with the figures of the trade's stories worked out by hand: beam and aim for a
// crown, even spacing along a walk, a lamp that a neighbour sees. And the light on the plan of the demo garden.
import assert from 'node:assert/strict';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stand } from './browser.mjs';

const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
});

const job = (plan, luminaires = [], items = []) => ({
  format: 'duskwire-job', version: 1, id: 'light-story', title: 'Light story',
  site: { mains_v: 120, mains_hz: 60, ruleset: 'us', units: 'metric' },
  catalogue: { luminaires: items }, plan, luminaires,
});

async function take(document) {
  await page.getByLabel('Job file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(document)) });
  await page.getByRole('application').waitFor();
}

const pane = (name) => page.getByRole('button', { name, exact: true }).click();
const area = () => page.getByRole('region', { name: 'Choose lamps', exact: true });
const levels = () => page.getByRole('region', { name: 'Levels', exact: true });
const lamps = () => page.locator('main [data-thing^="luminaire/"]').count();

async function find(target, wishes = {}) {
  await pane('Choose lamps');
  await area().getByLabel('What is to be lit').selectOption(target);
  for (const [name, text] of Object.entries(wishes)) {
    await area().getByLabel(name, { exact: true }).fill(text);
    await area().getByLabel(name, { exact: true }).press('Enter');
  }
  await area().getByRole('button', { name: 'Find lamps for it' }).click();
  await area().getByRole('list', { name: 'Lamps that fit' }).waitFor();
  return area().textContent();
}

const near = (text, pattern, wanted, tolerance, what) => {
  const found = Number(pattern.exec(text)?.[1]);
  assert.ok(Math.abs(found - wanted) <= tolerance + 1e-9, `${what}: ${found}, expected ${wanted} ± ${tolerance}`);
};

test('a crown asks for beam, distance and aim, and its lamps are placed in one step', async () => {
  // Crown 5 m across from 2 to 7.5 m, lamp 1.5 m off: its middle is 4.75 m up, hypot(1.5, 4.75) = 4.98 m away, seen
  // under 2 atan(2.5 / 4.98) = 53 degrees, 72.5 degrees up.
  await take(job({ trees: [{ id: 'maple', name: 'Maple', position: [10, 10], height_m: 7.5, crown_width_m: 5, crown_base_m: 2 }] }));
  const text = await find('tree/maple', { 'Set back by': '1.5' });
  near(text, /([\d.]+)°\s*beam/, 53, 1, 'beam');
  near(text, /([\d.]+)\s*m away/, 4.98, 0.05, 'distance');
  near(text, /([\d.]+)°\s*up from level/, 72.5, 0.3, 'aim');
  const place = area().getByRole('button', { name: /^Place \d+ × .*aimed$/ }).first();
  const [, count] = /^Place (\d+)/.exec(await place.textContent());
  await place.click();
  assert.equal(await lamps(), Number(count));
  await page.getByRole('button', { name: 'Undo: Light Maple' }).click();
  assert.equal(await lamps(), 0);
  assert.deepEqual(page.complaints, []);
});

test('a walk is lit evenly and without a runway, its steps by their own lamp', async () => {
  // 14.0 by 1.2 m, no gap over 2.44 m: six lights 2.33 m apart, the first and the last half of that from the ends.
  await take(job({ areas: [{ id: 'walk', name: 'Walk', kind: 'paving', outline: [[0, 0], [14, 0], [14, 1.2], [0, 1.2]] }] }));
  const text = await find('area/walk', { 'Longest gap': '2.44', 'Pool of one light': '2.6' });
  near(text, /([\d.]+)\s*m apart/, 2.33, 0.01, 'spacing');
  assert.match(text, /6 ×/);
  await area().getByRole('button', { name: /^Place 6 × / }).first().click();
  assert.equal(await lamps(), 6);
  await page.getByRole('button', { name: 'Undo: Light Walk' }).click();
  assert.deepEqual(page.complaints, []);
});

test('a neighbour who sees a bare lamp holds up the offer until it is shielded or accepted', async () => {
  const bullet = { id: 'b', title: 'Bullet', kind: 'bullet', lamp: 'regulated_led', power_w: 6, power_va: 7, window_min_v: 10, window_max_v: 15, flux_lm: 400, beam_deg: 36, mounting_height_m: 0.15 };
  // From (6, 2, 0.15) at (6, 6, 5): azimuth 0, atan(4.85 / 4) = 50.5 degrees up.
  const lamp = { id: 'U1', name: 'Uplight', item: 'b', position: [6, 2, 0.15], azimuth_deg: 0, tilt_deg: (Math.atan2(4.85, 4) * 180) / Math.PI };
  const eye = { id: 'bedroom', name: 'Neighbour’s bedroom', kind: 'neighbour_window', position: [14, 18, 4.5] };
  await take(job({ view_points: [eye], property_line: [[0, 0], [12, 0], [12, 16], [0, 16]] }, [lamp], [bullet]));
  await pane('Levels');
  const seen = levels().getByRole('region', { name: /^Seen from Neighbour/ });
  await seen.getByText(/lamp visible from Neighbour/).waitFor();
  await levels().getByText('A neighbour is disturbed').waitFor();
  await seen.getByRole('button', { name: 'Accept', exact: true }).click();
  await seen.getByRole('button', { name: 'Do not accept' }).waitFor();
  await page.getByRole('button', { name: 'Undo: Accept a visible lamp' }).click();
  await seen.getByRole('button', { name: 'Accept', exact: true }).waitFor();

  // 42.7 degrees off its axis: a shield that cuts off at 40 hides it.
  await seen.getByRole('button', { name: 'Uplight' }).click();
  await pane('Properties');
  const field = page.getByLabel(/^Shield hides it beyond/);
  await field.fill('40');
  await field.press('Enter');
  await pane('Levels');
  await seen.getByText('no bare lamp, 1 hidden').waitFor();
  assert.deepEqual(page.complaints, []);
});

test('the plan shows the light on the ground, in colours with a legend and as pools', async () => {
  await openDemo(page);
  await page.getByRole('button', { name: 'Light', exact: true }).click();
  const legend = page.getByRole('group', { name: 'Light on the ground' });
  await legend.getByRole('list').waitFor();
  const picture = page.locator('main .light image');
  await picture.waitFor();
  assert.ok((await page.locator('main .light path').count()) > 2, 'lines of equal light');
  const colours = await picture.getAttribute('href');
  await legend.getByRole('button', { name: 'Pools of light' }).click();
  await page.waitForFunction((before) => document.querySelector('main .light image')?.getAttribute('href') !== before, colours);
  assert.equal(await page.locator('main .light path').count(), 0);
  // Each walk with its figures, each missed target in words.
  await pane('Levels');
  const walk = levels().getByRole('list', { name: 'Places and their light' }).getByRole('button', { name: /Front walk/ });
  await walk.getByText(/lx.* on average, .* at least, uniformity/).waitFor();
  await walk.getByText(/^\s*(meets|misses) /).waitFor();
  await page.getByRole('button', { name: 'Light', exact: true }).click();
  await picture.waitFor({ state: 'detached' });
  assert.deepEqual(page.complaints, []);
});
