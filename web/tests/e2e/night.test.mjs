// SPDX-License-Identifier: Apache-2.0
// A photograph at night on the real engine: brought in, calibrated by touch, three lamps placed and aimed, dimmed,
// looked at under the finger, saved as a picture; and everything undone again. The photograph is made from a known
// camera, so that what is found can be compared.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stand, until } from './browser.mjs';
import { camera, corners, photograph, pixelOf, size, wall } from './photograph.mjs';

const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, acceptDownloads: true });
  page = await openPage(context, here.site.address);
});

const view = () => page.getByRole('dialog', { name: 'Photograph' });
const button = (name) => view().getByRole('button', { name, exact: true });
const field = (name) => view().getByLabel(name, { exact: true });
const stage = () => view().getByRole('application');
const step = (name) => view().getByRole('navigation').getByRole('button', { name }).click();
const enter = async (name, text) => {
  await field(name).fill(text);
  await field(name).press('Enter');
};

async function openView() {
  await page.getByRole('button', { name: 'Photograph', exact: true }).click();
  await view().waitFor();
}

// Beside the demo's own.
async function bringIn() {
  await step('Photograph');
  await view().getByLabel(/^Bring in/).setInputFiles({ name: 'front.png', mimeType: 'image/png', buffer: photograph() });
  await view().getByRole('application', { name: /^Photograph Photograph 1\./ }).waitFor();
}

/** Where the stage shows an element of the photograph while all of it is shown, in the window. */
async function onScreen([x, y]) {
  const box = await stage().boundingBox();
  const scale = Math.min(box.width / size.width, box.height / size.height);
  return [box.x + box.width / 2 + (x - size.width / 2) * scale, box.y + box.height / 2 + (y - size.height / 2) * scale];
}

const tap = async (pixel) => page.touchscreen.tap(...(await onScreen(pixel)));

/** Four corners by finger, then which wall it is and how large. */
async function calibrate() {
  await step('Known wall');
  await button('Mark the four corners').click();
  for (const corner of corners) await tap(pixelOf(corner));
  await field('Which wall').selectOption({ index: 1 });
  await enter('Width', '10 m');
  await enter('Height', '3 m');
  await enter('Begins, from the wall’s left end', '3 m');
  await view().getByRole('region', { name: 'The camera' }).waitFor();
}

/** A drag of one finger, with the loupe there while it lasts. */
async function drag(from, to) {
  const session = await context.newCDPSession(page);
  const send = (type, points) => session.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y]) => ({ x, y })) });
  await send('touchStart', [from]);
  for (let i = 1; i <= 8; ++i) await send('touchMove', [[from[0] + ((to[0] - from[0]) * i) / 8, from[1] + ((to[1] - from[1]) * i) / 8]]);
  // What a finger does comes a moment after it.
  const loupe = view().locator('.loupe');
  await loupe.first().waitFor();
  const loupes = await loupe.count();
  await send('touchEnd', []);
  await session.detach();
  await loupe.first().waitFor({ state: 'detached' });
  return loupes;
}

const lamps = () => view().locator('[data-lamp]').evaluateAll((marks) => marks.map((mark) => mark.getAttribute('data-lamp')));

/** Mean of the night as it is shown, 0 to 255. */
const brightness = () =>
  view().locator('.picture canvas').evaluate((canvas) => {
    const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) sum += data[i] + data[i + 1] + data[i + 2];
    return sum / (0.75 * data.length);
  });

const settled = async () => {
  await view().getByText('Calculating …', { exact: true }).waitFor({ state: 'detached' });
};

test('a photograph is calibrated by touch, measured on, and undone', async () => {
  await openDemo(page);
  await openView();
  await bringIn();
  await calibrate();
  // A tap on this small screen is good to a few elements; the distance must come out within a tenth.
  const middle = [(wall.left[0] + wall.right[0]) / 2, wall.left[1]];
  const trueM = Math.hypot(camera.position[0] - middle[0], camera.position[1] - middle[1]);
  let words = '';
  await until(async () => {
    words = await view().getByRole('region', { name: 'The camera' }).textContent();
    const [, feet] = /stood ([\d.]+)\s*ft from the wall/.exec(words);
    assert.ok(Math.abs(Number(feet) * 0.3048 - trueM) < 0.1 * trueM, `${feet} ft for ${trueM} m`);
  });
  assert.match(words, /looking north/);
  assert.match(words, /agree with it within|nothing is left over/);

  // By finger with the loupe, then by the arrows beside the corners.
  await button('Bottom left').click();
  const from = await onScreen(pixelOf(corners[0]));
  assert.equal(await drag(from, [from[0] + 12, from[1] + 8]), 1, 'a loupe while the finger is down');
  await page.getByRole('button', { name: 'Undo: Move a corner' }).last().click();
  await button('Bottom left').click();
  await view().getByRole('button', { name: 'Move Bottom left left' }).click();
  await page.getByRole('button', { name: 'Undo: Move a corner' }).last().waitFor();

  await step('Surfaces');
  await button('The known wall').click();
  await step('Measure');
  await button('Measure a length').click();
  // Half of the wall, along its lower edge.
  await tap(pixelOf([12.5, 16, 0.5]));
  await tap(pixelOf([17.5, 16, 0.5]));
  const measured = view().getByRole('list', { name: 'Measured' }).getByRole('listitem').first();
  await measured.getByText(/±/).waitFor();
  const [, length, error] = /([\d.]+)\s*±\s*([\d.]+)\s*ft/.exec(await measured.textContent());
  assert.ok(Math.abs(Number(length) * 0.3048 - 5) < Math.max(0.15, 3 * Number(error) * 0.3048), `${length} ± ${error} ft for 5 m`);
  assert.ok(Number(error) > 0);
  assert.deepEqual(page.complaints, []);
});

test('a wall of unknown height and the one around its corner are measured by the picture, and both take light', async () => {
  await openDemo(page);
  await openView();
  await bringIn();
  await step('Known wall');
  await button('Mark the four corners').click();
  for (const corner of corners) await tap(pixelOf(corner));
  await field('Which wall').selectOption({ index: 1 });
  await enter('Width', '10 m');
  await enter('Begins, from the wall’s left end', '3 m');
  await enter('Height', '');
  // The house's west side, 4 m deep.
  await button('Mark its far edge').click();
  await tap(pixelOf([12, 20, 3]));
  await tap(pixelOf([12, 20, 0]));
  const told = view().getByRole('region', { name: 'The camera' });
  const feet = async (pattern) => {
    const [, value, error] = pattern.exec(await told.textContent()) ?? [];
    return [Number(value) * 0.3048, Number(error) * 0.3048];
  };
  await until(async () => {
    const [highM, highError] = await feet(/wall is ([\d.]+)\s*±\s*([\d.]+)\s*ft high/);
    assert.ok(Math.abs(highM - wall.height) < Math.max(0.3, 3 * highError), `${highM} m high`);
    const [wideM, wideError] = await feet(/second wall is ([\d.]+)\s*±\s*([\d.]+)\s*ft wide/);
    assert.ok(Math.abs(wideM - 4) < Math.max(0.4, 3 * wideError), `${wideM} m wide`);
  });
  await button('Far top').click();
  await view().getByRole('button', { name: 'Move Far top up' }).click();
  await page.getByRole('button', { name: 'Undo: Move a corner' }).last().waitFor();

  await step('Surfaces');
  await button('The known wall').click();
  await button('The second wall').click();
  assert.equal(await field('It lies on').inputValue(), 'left-wall');
  await view().getByText("At a right angle, around the house's corner").waitFor();
  assert.equal(await button('The second wall').count(), 0, 'it is outlined already');
  await button('Ground').click();
  for (const place of [[13, 14, 0], [20, 14, 0], [16, 11, 0]]) await tap(pixelOf(place));
  await button('Done').click();
  assert.equal(await field('It lies on').inputValue(), 'ground');
  await step('Known wall');
  await button('Remove').click();
  assert.equal(await button('Far top').count(), 0);
  assert.deepEqual(page.complaints, []);
});

test('three lamps on the photograph are lit, dimmed, probed and saved', async () => {
  await openDemo(page);
  await openView();
  await bringIn();
  await calibrate();
  await step('Surfaces');
  await button('The known wall').click();
  // The ground in front, as far as the picture goes.
  await button('Ground').click();
  for (const corner of [pixelOf([12, 16, 0]), pixelOf([22, 16, 0]), [956, 430], [956, 636], [4, 636]]) await tap(corner);
  await button('Done').click();
  await step('Lamps and night');
  const before = new Set(await lamps());
  await view().getByLabel('Light to place').selectOption('bullet-6w-36');
  await button('Place lights on the photograph').click();
  for (const x of [14, 17, 20]) await tap(pixelOf([x, 14.6, 0]));
  await button('Done placing').click();
  const placed = (await lamps()).filter((id) => !before.has(id));
  assert.equal(placed.length, 3);

  await view().getByRole('checkbox', { name: /^Night/ }).check();
  await settled();
  // Aimed at the wall by its ring.
  const mark = view().locator(`[data-lamp="${placed[2]}"]`);
  const ring = await mark.locator('.ring').boundingBox();
  await drag([ring.x + ring.width / 2, ring.y + ring.height / 2], await onScreen(pixelOf([20, 16, 1.8])));
  await settled();
  const full = await brightness();
  await tap(pixelOf([20, 16, 1.8]));
  await view().getByText(/lx, [\d.]+ cd\/m²/).waitFor();
  await view().getByText(/^Light \d+ [\d.]+ lx/).waitFor();

  await view().getByLabel('Lamp', { exact: true }).selectOption(placed[2]);
  await view().getByLabel('Dimmed to').fill('10');
  await settled();
  const dim = await brightness();
  assert.ok(dim < full, `dimmed ${dim}, full ${full}`);
  await page.getByRole('button', { name: /^Undo: Dim/ }).last().click();
  await settled();
  assert.ok(Math.abs((await brightness()) - full) < 0.5, 'undone it is as bright as before');
  await view().getByRole('checkbox', { name: /^Switched on/ }).uncheck();
  await settled();
  assert.ok((await brightness()) < full);
  await view().getByRole('checkbox', { name: /^Switched on/ }).check();

  const saving = page.waitForEvent('download');
  await button('Save the picture (PNG)').click();
  const file = await saving;
  assert.match(file.suggestedFilename(), /night\.png$/);
  const png = readFileSync(await file.path());
  assert.equal(png.readUInt32BE(16), size.width, 'as wide as the photograph');
  assert.ok(png.readUInt32BE(20) > size.height + 40, 'with a caption below');

  // The same lamps are on the plan.
  await view().getByRole('button', { name: 'Plan', exact: true }).click();
  for (const id of placed) await page.locator(`main [data-thing="luminaire/${id}"]`).waitFor();
  assert.deepEqual(page.complaints, []);
});

test('everything on the photograph is there for the keyboard', async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await openDemo(page);
  await openView();
  await bringIn();
  await step('Surfaces');
  await button('Sky').click();
  await stage().focus();
  for (const key of ['ArrowUp', 'ArrowRight', 'ArrowDown']) {
    await page.keyboard.press('Enter');
    for (let i = 0; i < 6; ++i) await page.keyboard.press(`Shift+${key}`);
  }
  await page.keyboard.press('Shift+Enter');
  const list = view().getByRole('list', { name: 'Outlined' });
  await list.getByRole('button', { name: /^Sky/, pressed: true }).waitFor();
  await stage().focus();
  await page.keyboard.press('Delete');
  await list.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Undo: Remove an outline' }).last().click();
  await list.waitFor();
  await page.keyboard.press('Escape');
  await view().waitFor({ state: 'detached' });
  assert.deepEqual(page.complaints, []);
});
