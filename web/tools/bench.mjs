#!/usr/bin/env node
// SPDX-License-Identifier: Apache-2.0
// How long the page takes, in Debian's Chromium on the built page: first load (bytes over the wire with gzip, time to
// the list of jobs) and the answer to a change (engine alone, and the whole way: document to text, worker, engine,
// report back) for gardens of several sizes, by a tap chosen in its list and by a light dragged over the plan with the
// pointer. And the night on the demo's photograph: a lamp dragged over it. Needs web/dist (npm run build).
//   node tools/bench.mjs [--lamps 60,300,1000] [--rounds 40]
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { preview } from 'vite';
import { bigGarden } from './big-garden.mjs';
import { firstLoadBytes } from './first-load.mjs';

const { values } = parseArgs({ options: { lamps: { type: 'string', default: '60,300,1000' }, rounds: { type: 'string', default: '40' } } });
const root = resolve(import.meta.dirname, '..');
const rounds = Number(values.rounds);
const quantile = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
const figures = (list) => {
  const sorted = [...list].sort((a, b) => a - b);
  return `median ${quantile(sorted, 0.5).toFixed(1).padStart(7)}   p95 ${quantile(sorted, 0.95).toFixed(1).padStart(7)}`;
};

const server = await preview({ root, preview: { port: 0 }, logLevel: 'silent' });
const address = server.resolvedUrls.local[0];
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});

async function firstLoad() {
  const times = [];
  for (let round = 0; round < 5; round += 1) {
    const context = await browser.newContext({ serviceWorkers: 'block' });
    const page = await context.newPage();
    const start = performance.now();
    await page.goto(address);
    await page.getByRole('heading', { name: 'No job yet' }).waitFor();
    times.push(performance.now() - start);
    await context.close();
  }
  console.log(`first load   ${(firstLoadBytes() / 1000).toFixed(0)} kB compressed (page, letters, engine)   ms to the list of jobs: ${figures(times)}`);
}

async function change(count) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(address);
  await page.getByLabel('Job file').setInputFiles({ name: 'garden.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(bigGarden(count))) });
  await page.getByRole('application').waitFor();
  await page.locator('nav').getByRole('button', { name: /^Transformers/ }).click();
  const tap = page.getByLabel('Tap of T0-0', { exact: true });
  await tap.waitFor();
  await page.evaluate(() => {
    window.answers = [];
    new PerformanceObserver((list) => {
      for (const { name, duration, detail } of list.getEntries()) {
        if (name === 'duskwire check' && !detail.cures) window.answers.push([detail.engineMilliseconds, duration]);
      }
    }).observe({ type: 'measure' });
  });
  for (let round = 0; round < rounds; round += 1) {
    await tap.selectOption(round % 2 ? '13' : '14');
    await page.waitForFunction((wanted) => window.answers.length > wanted, round);
  }
  const answers = await page.evaluate(() => window.answers);
  console.log(`${String(count).padStart(5)} lamps, tap   engine ms: ${figures(answers.map(([engine]) => engine))}   whole way ms: ${figures(answers.map(([, whole]) => whole))}`);
  await drag(page, count);
  await context.close();
}

// One light from the middle of the garden under the pointer, as a hand moves it; frames as the browser gives them.
async function drag(page, count) {
  const light = page.locator(`.lamp[data-thing="luminaire/F${Math.floor(count / 2)}"]`);
  const before = await light.getAttribute('style');
  const middle = async () => {
    const box = await light.locator('.body').boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  // Near enough that the marks of its neighbours do not lie on it.
  for (let step = 0; step < 6; step += 1) {
    await page.mouse.move(...(await middle()));
    await page.mouse.wheel(0, -200);
    await page.waitForTimeout(200);
  }
  const [x, y] = await middle();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.evaluate(() => {
    window.answers = [];
    window.frames = [];
    let last;
    const frame = (now) => {
      if (last !== undefined) window.frames.push(now - last);
      last = now;
      window.drawing = requestAnimationFrame(frame);
    };
    window.drawing = requestAnimationFrame(frame);
  });
  for (let round = 1; round <= rounds; round += 1) await page.mouse.move(x + 2 * round, y + 10 * Math.sin(round / 4));
  await page.waitForFunction(() => window.answers.length > 0);
  const { answers, frames } = await page.evaluate(() => {
    cancelAnimationFrame(window.drawing);
    return { answers: window.answers, frames: window.frames };
  });
  if ((await light.getAttribute('style')) === before) throw new Error(`The light was not moved at ${count} lamps.`);
  await page.mouse.up();
  console.log(`${String(count).padStart(5)} lamps, drag  engine ms: ${figures(answers.map(([engine]) => engine))}   whole way ms: ${figures(answers.map(([, whole]) => whole))}   frame ms: ${figures(frames)}   (${answers.length} answers, ${frames.length} frames)`);
}

// A lamp of the demo garden dragged over its photograph at night: pictures of half a million elements.
async function night() {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(address);
  await page.getByRole('button', { name: 'Open the demo garden' }).click();
  await page.getByRole('application').waitFor();
  await page.getByRole('button', { name: 'Photograph', exact: true }).click();
  const view = page.getByRole('dialog', { name: 'Photograph' });
  await view.getByRole('application').waitFor();
  await page.evaluate(() => {
    window.answers = [];
    new PerformanceObserver((list) => {
      for (const { duration, detail } of list.getEntries()) if (detail?.recomputed !== undefined) window.answers.push([detail.engineMilliseconds, duration, detail.recomputed]);
    }).observe({ type: 'measure' });
  });
  await view.getByRole('checkbox', { name: /^Night/ }).check();
  await page.waitForFunction(() => window.answers.length > 0, undefined, { timeout: 120_000 });
  const [[firstMs, , lampCount]] = await page.evaluate(() => window.answers);
  const boxes = await view.locator('[data-lamp] .body').evaluateAll((bodies) => bodies.map((body) => body.getBoundingClientRect()).map(({ x, y, width }) => [x + width / 2, y + width / 2]));
  const stage = await view.getByRole('application').boundingBox();
  const middle = [stage.x + stage.width / 2, stage.y + stage.height * 0.6];
  const far = ([x, y]) => Math.hypot(x - middle[0], y - middle[1]);
  const [x, y] = boxes.sort((a, b) => far(a) - far(b))[0];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.evaluate(() => (window.answers = []));
  for (let round = 1; round <= rounds; round += 1) {
    await page.mouse.move(x + 2 * round, y + 6 * Math.sin(round / 4));
    await page.waitForTimeout(100);
  }
  const answers = await page.evaluate(() => window.answers);
  await page.mouse.up();
  const moved = answers.filter(([, , recomputed]) => recomputed === 1);
  if (moved.length < rounds / 2) throw new Error(`Only ${moved.length} of ${answers.length} pictures were of a moved lamp.`);
  console.log(`night, first picture of ${lampCount} lamps   engine ms: ${firstMs.toFixed(0)}`);
  console.log(`night, one lamp dragged   engine ms: ${figures(moved.map(([engine]) => engine))}   whole way ms: ${figures(moved.map(([, whole]) => whole))}   (${moved.length} pictures)`);
  await context.close();
}

await firstLoad();
for (const count of values.lamps.split(',').map(Number)) await change(count);
await night();
await browser.close();
await server.close();
process.exit(0);
