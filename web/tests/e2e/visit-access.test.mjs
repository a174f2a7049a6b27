// SPDX-License-Identifier: Apache-2.0
// The sides of a visit on a phone in every look: nothing serious by axe-core, nothing wider than the screen; in red
// light nothing on the screen but red.
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { test } from 'node:test';
import { openPage, stand } from './browser.mjs';
import { eightLamps } from './eight-lamps.mjs';
import { begin, phone, read, side, takeJob } from './visit.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const here = stand();
const pictures = resolve(import.meta.dirname, '../../../build/pictures');
mkdirSync(pictures, { recursive: true });

async function judge(page, view, theme) {
  await page.waitForTimeout(300);
  await page.screenshot({ path: `${pictures}/visit-${view.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}-${theme}-390.png` });
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }));
  const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
  assert.deepEqual(serious.map(({ id, nodes }) => `${view}: ${id} ${nodes[0].html}`), []);
  const wider = await page.evaluate(() => [document.documentElement, document.querySelector('.side')].map((node) => node.scrollWidth - node.clientWidth));
  assert.ok(wider.every((px) => px <= 0), `${view} is ${wider} px wider than its room`);
}

for (const theme of ['day', 'dusk', 'red', 'sun']) {
  test(`the sides of a visit, ${theme}`, async () => {
    // The policy forbids the page what the tester needs: to bring a script of its own.
    const context = await here.browser.newContext({ ...phone, bypassCSP: true });
    await context.addInitScript((name) => localStorage.setItem('duskwire-theme', name), theme);
    const page = await openPage(context, here.site.address);
    await takeJob(page, eightLamps());
    await begin(page, 'Service call');
    await judge(page, 'Read', theme);
    await read(page, 'Output volts', 'T-A', '13.0');
    await read(page, 'Output amps', 'T-A', '1.26');
    await read(page, 'Lamp volts', 'F4', '12.68');
    await read(page, 'Lamp volts', 'F5', '0');
    await page.getByText('✕ outside').first().waitFor({ timeout: 90_000 });
    await judge(page, 'a reading', theme);
    await page.getByRole('button', { name: /^What / }).tap();
    await judge(page, 'kinds of reading', theme);
    await page.getByRole('button', { name: /^What / }).tap();
    await page.getByRole('button', { name: /^Where / }).tap();
    await page.getByRole('button', { name: 'Plan', exact: true }).tap();
    await judge(page, 'a place on the plan', theme);
    await side(page, 'Find');
    await page.locator('.find[aria-busy="false"]').waitFor({ timeout: 90_000 });
    await judge(page, 'Find', theme);
    if (theme === 'red') {
      const other = await page.evaluate(() => {
        const shown = [...document.querySelectorAll('.find *')].flatMap((node) => ['color', 'borderTopColor', 'backgroundColor'].map((key) => getComputedStyle(node)[key]));
        // Red at its brightest is not joined by more than a little green or blue.
        return [...new Set(shown)].filter((colour) => {
          const [r, g, b, a = 1] = colour.match(/[\d.]+/g).map(Number);
          return a > 0 && Math.max(g, b) > 0.6 * r;
        });
      });
      assert.deepEqual(other.filter((colour) => colour !== 'rgb(0, 0, 0)'), []);
    }
    await side(page, 'Log');
    await judge(page, 'Log', theme);
    await side(page, 'Visit');
    await judge(page, 'Visit', theme);
    await side(page, 'As built');
    await page.getByRole('region', { name: 'Joints' }).getByRole('button', { name: /^J4/ }).tap();
    await judge(page, 'As built', theme);
    assert.deepEqual(page.complaints, []);
    await context.close();
  });
}
