// SPDX-License-Identifier: Apache-2.0
// One view as it stands: nothing serious by axe-core, nothing wider than the screen, and a picture of it for the eye.
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// What was judged stays as a picture.
const pictures = resolve(import.meta.dirname, '../../../build/pictures');
mkdirSync(pictures, { recursive: true });

export const themes = ['day', 'dusk', 'sun'];

/** A context whose pages begin in a theme. The policy forbids them what the tester needs: to bring a script of its own. */
export async function judgedContext(browser, theme, [width, height]) {
  const context = await browser.newContext({ viewport: { width, height }, locale: 'en-US', bypassCSP: true });
  await context.addInitScript((name) => localStorage.setItem('duskwire-theme', name), theme);
  return context;
}

export async function judge(page, view) {
  await page.waitForTimeout(300);
  const { width } = page.viewportSize();
  const theme = await page.evaluate(() => localStorage.getItem('duskwire-theme'));
  await page.screenshot({ path: `${pictures}/${view.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}-${theme}-${width}.png` });
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }));
  const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
  assert.deepEqual(serious.map(({ id, nodes }) => `${view}: ${id} ${nodes[0].html}`), []);
  const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(wider <= 0, `${view} is ${wider} px wider than the screen`);
}
