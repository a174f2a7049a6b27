// SPDX-License-Identifier: Apache-2.0
// Drawing a job from blank to sound: by mouse, by touch on a telephone, by the keyboard alone; and hands that slip.
import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { drawn, openDemo, openPage, stand, until } from './browser.mjs';

const here = stand();
let context;

afterEach(() => context?.close());

async function blankJob(options) {
  context = await here.browser.newContext(options);
  const page = await openPage(context, here.site.address);
  await page.getByRole('button', { name: 'New job' }).click();
  const dialog = page.getByRole('dialog', { name: 'New job' });
  await dialog.getByLabel('Title').fill('Drawn by hand');
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('application').waitFor();
  return page;
}

const plan = (page) => page.getByRole('application');
const tool = (page, name) => page.getByRole('toolbar', { name: 'Tools of the plan' }).getByRole('button', { name: new RegExp(`^${name} `) });
// Takes a tool in hand by `press`; what it places comes out of the catalogue, which comes a moment after the plan.
async function take(page, name, press = 'click') {
  await tool(page, name)[press]();
  await tool(page, name).and(page.locator('[aria-pressed="true"]')).waitFor();
  if (/^(Place a (light|transformer)|Lay a cable)$/.test(name)) await page.getByLabel('What to place').locator('option').first().waitFor({ state: 'attached' });
}
const things = (page, kind) => page.locator(`[data-thing^="${kind}/"]`);
const counts = async (page) => {
  const made = {};
  for (const kind of ['transformer', 'luminaire', 'cable', 'joint']) made[kind] = await things(page, kind).count();
  return made;
};
// The live answer carries a state for each lamp; good ones are drawn filled.
const voltsOf = async (page) => (await page.locator('.lamp .figures').allTextContents()).map(Number);

async function spot(page, x, y) {
  const box = await plan(page).boundingBox();
  return [box.x + box.width * x, box.y + box.height * y];
}

async function isSound(page, lamps) {
  await page.waitForFunction((count) => document.querySelectorAll('.lamp .state.filled').length === count, lamps);
  const volts = await voltsOf(page);
  assert.equal(volts.length, lamps);
  for (const volt of volts) assert.ok(volt > 9 && volt < 15, `${volt} V`);
}

test('by mouse: a chain of three lights, each with its volts', async () => {
  const page = await blankJob({ viewport: { width: 1440, height: 900 } });
  const click = async (x, y) => page.mouse.click(...(await spot(page, x, y)));
  await take(page, 'Place a transformer');
  await click(0.2, 0.6);
  await take(page, 'Place a light');
  for (const x of [0.4, 0.55, 0.7]) await click(x, 0.6);
  await take(page, 'Lay a cable');
  await click(0.2, 0.6);
  for (const x of [0.4, 0.55, 0.7]) await click(x, 0.6);
  assert.deepEqual(await counts(page), { transformer: 1, luminaire: 3, cable: 3, joint: 0 });
  await isSound(page, 3);
  assert.deepEqual(page.complaints, []);
});

test('by mouse: what is dragged takes its cables along, and undo brings it back', async () => {
  const page = await blankJob({ viewport: { width: 1440, height: 900 } });
  const at = (x, y) => spot(page, x, y);
  await take(page, 'Place a transformer');
  await page.mouse.click(...(await at(0.2, 0.5)));
  await take(page, 'Place a light');
  await page.mouse.click(...(await at(0.5, 0.5)));
  await take(page, 'Lay a cable');
  await page.mouse.click(...(await at(0.2, 0.5)));
  await page.mouse.click(...(await at(0.5, 0.5)));
  await page.keyboard.press('Escape');
  await page.keyboard.press('v');
  const route = () => page.locator('.wire').getAttribute('points');
  const before = await route();
  await page.mouse.move(...(await at(0.5, 0.5)));
  await page.mouse.down();
  await page.mouse.move(...(await at(0.6, 0.7)), { steps: 8 });
  await page.mouse.up();
  const after = await route();
  assert.notEqual(after, before);
  assert.equal(after.split(' ')[0], before.split(' ')[0], 'the end at the transformer stays');
  const lamp = await things(page, 'luminaire').getAttribute('style');
  assert.ok(lamp.includes(after.split(' ')[1].split(',')[0]), 'the route ends at the lamp');
  await page.keyboard.press('Control+z');
  assert.equal(await route(), before);
});

test('by mouse: a cable that ends on another sets a joint into it; a typed length counts', async () => {
  const page = await blankJob({ viewport: { width: 1440, height: 900 } });
  const click = async (x, y) => page.mouse.click(...(await spot(page, x, y)));
  await take(page, 'Place a transformer');
  await click(0.2, 0.5);
  await take(page, 'Place a light');
  await click(0.7, 0.5);
  await click(0.45, 0.8);
  await take(page, 'Lay a cable');
  await click(0.2, 0.5);
  await click(0.7, 0.5);
  await page.keyboard.press('Escape');
  await click(0.45, 0.8);
  await click(0.46, 0.5);
  assert.deepEqual(await counts(page), { transformer: 1, luminaire: 2, cable: 3, joint: 1 });
  await isSound(page, 2);
  // On from the joint: ten units straight up, then an end on open ground.
  await page.mouse.move(...(await spot(page, 0.46, 0.3)));
  await page.keyboard.type('10<90');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Finish' }).click();
  assert.deepEqual(await counts(page), { transformer: 1, luminaire: 2, cable: 4, joint: 2 });
  const routes = await page.locator('.wire').evaluateAll((all) => all.map((one) => one.getAttribute('points')));
  const [[x0, y0], [x1, y1]] = routes.at(-1).split(' ').map((point) => point.split(',').map(Number));
  assert.ok(Math.abs(x1 - x0) < 1e-9 && Math.abs(y1 - y0 - 3.048) < 1e-9, 'ten feet to the millimetre and below');
});

test('by the keyboard alone: transformer, light and cable', async () => {
  const page = await blankJob({ viewport: { width: 1280, height: 800 } });
  await plan(page).focus();
  const press = async (...keys) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const times = (count, key) => Array.from({ length: count }, () => key);
  await press('t');
  // The catalogue comes a moment after the plan.
  await page.getByLabel('What to place').locator('option').first().waitFor({ state: 'attached' });
  await press('Enter');
  await press('l', ...times(9, 'Shift+ArrowRight'), 'Enter', ...times(9, 'Shift+ArrowUp'), 'Enter');
  await press('c', ...times(9, 'Shift+ArrowDown'), ...times(9, 'Shift+ArrowLeft'), 'Enter');
  await press(...times(9, 'Shift+ArrowRight'), 'Enter', ...times(9, 'Shift+ArrowUp'), 'Enter', 'Escape', 'Escape');
  assert.deepEqual(await counts(page), { transformer: 1, luminaire: 2, cable: 2, joint: 0 });
  await isSound(page, 2);
  await press('Control+a', 'Delete');
  assert.deepEqual(await counts(page), { transformer: 0, luminaire: 0, cable: 0, joint: 0 });
  await press('Control+z');
  assert.equal((await counts(page)).luminaire, 2);
});

test('by touch at 390 by 844: each step with one finger', async () => {
  const page = await blankJob({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const tap = async (x, y) => page.touchscreen.tap(...(await spot(page, x, y)));
  const choose = (name) => take(page, name, 'tap');
  await choose('Place a transformer');
  // Until a tool is in hand the plan says how to begin, and a tap may land on that.
  await page.getByRole('heading', { name: 'Nothing is drawn yet' }).waitFor({ state: 'hidden' });
  await tap(0.3, 0.75);
  await things(page, 'transformer').first().waitFor();
  await choose('Place a light');
  await tap(0.75, 0.75);
  await tap(0.75, 0.5);
  await choose('Lay a cable');
  await tap(0.3, 0.75);
  await tap(0.75, 0.75);
  await tap(0.75, 0.5);
  await page.getByRole('button', { name: 'Cancel' }).tap();
  await until(async () => assert.deepEqual(await counts(page), { transformer: 1, luminaire: 2, cable: 2, joint: 0 }));
  await isSound(page, 2);
});

test('the site: an area by corners and a typed side, what is locked takes no tap, a picture gets its scale', async () => {
  const page = await blankJob({ viewport: { width: 1440, height: 900 } });
  const click = async (x, y) => page.mouse.click(...(await spot(page, x, y)));
  await tool(page, 'Draw an area, a boundary or a sleeve').click();
  await page.getByLabel('What to draw').selectOption('building');
  for (const [x, y] of [[0.4, 0.6], [0.6, 0.6], [0.6, 0.8], [0.4, 0.8], [0.4, 0.6]]) await click(x, y);
  assert.equal(await things(page, 'area').count(), 1);
  await tool(page, 'Place a tree, a receptacle or a point').click();
  await click(0.3, 0.5);
  assert.equal(await things(page, 'tree').count(), 1);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Layers' }).click();
  await page.getByRole('group', { name: 'Ground and site' }).getByLabel('Locked').check();
  await click(0.5, 0.7);
  assert.equal(await page.getByRole('button', { name: 'Remove', exact: true }).count(), 0, 'nothing is selected');
  await page.getByRole('group', { name: 'Ground and site' }).getByLabel('Locked').uncheck();
  const lengths = () => page.locator('.lengths text').count();
  assert.equal(await lengths(), 0);
  await page.getByRole('group', { name: 'Lengths' }).getByLabel('Shown').check();
  assert.equal(await lengths(), 4, 'one at each edge of the building');
  await page.getByRole('group', { name: 'Lengths' }).getByLabel('Shown').uncheck();
  await click(0.5, 0.7);
  assert.equal(await lengths(), 4, 'of what is selected, without the layer');
  await page.getByRole('button', { name: 'Remove', exact: true }).click();
  assert.equal(await things(page, 'area').count(), 0);
  assert.equal(await lengths(), 0);
  assert.deepEqual(page.complaints, []);
});

// Two fingers by the browser's own protocol: what a page sees of a pinch.
async function pinch(page, protocol, tool) {
  const [x, y] = await spot(page, 0.5, 0.6);
  const touch = (type, points) => protocol.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })) });
  const apart = 40 + tool * 3;
  await touch('touchStart', [[x, y]]);
  await touch('touchStart', [[x, y], [x + apart, y + 10]]);
  for (let step = 1; step <= 3; step += 1) await touch('touchMove', [[x - 5 * step, y], [x + apart + 6 * step, y + 10]]);
  await touch('touchEnd', [[x - 15, y]]);
  await touch('touchEnd', []);
}

test('100 pinches with drawing tools in hand leave nothing behind', async () => {
  const page = await blankJob({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const protocol = await context.newCDPSession(page);
  for (const [number, name] of ['Place a light', 'Place a transformer', 'Lay a cable', 'Measure'].entries()) {
    await take(page, name, 'tap');
    for (let i = 0; i < 25; i += 1) {
      await pinch(page, protocol, (number * 25 + i) % 10);
      if (i % 8 === 7) await page.getByRole('button', { name: 'Show all' }).tap();
    }
  }
  await drawn(page);
  assert.deepEqual(await counts(page), { transformer: 0, luminaire: 0, cable: 0, joint: 0 });
  assert.equal(await page.locator('.sketch .line').count(), 0);
});

test('the demo garden: removing a light closes its chain, and one undo restores all', async () => {
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await openPage(context, here.site.address);
  await openDemo(page);
  const before = await counts(page);
  await page.locator('[data-thing="luminaire/F5"]').click();
  await page.getByRole('button', { name: 'Remove', exact: true }).click();
  const after = await counts(page);
  assert.equal(after.luminaire, before.luminaire - 1);
  await page.keyboard.press('Control+z');
  assert.deepEqual(await counts(page), before);
  assert.deepEqual(page.complaints, []);
});
