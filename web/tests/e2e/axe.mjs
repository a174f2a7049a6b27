// SPDX-License-Identifier: Apache-2.0
// One view as it stands, in each theme: nothing serious by axe-core, nothing wider than the screen.
// DUSKWIRE_PICTURES=FOLDER keeps a picture of each in each theme, for the eye; without it none is taken.
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const pictures = process.env.DUSKWIRE_PICTURES;
if (pictures) mkdirSync(pictures, { recursive: true });

async function keep(page, view, theme) {
  const name = `${view.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}-${theme}-${page.viewportSize().width}.png`;
  await page.screenshot({ path: join(pictures, name) });
}

export const themes = ['day', 'dusk', 'red', 'sun'];

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** A context for judging. The policy forbids its pages what the tester needs: to bring a script of its own. */
export function judgedContext(browser, [width, height], more = {}) {
  return browser.newContext({ ...more, viewport: { width, height }, locale: 'en-US', bypassCSP: true });
}

/** A theme changes colours and the weight of lines, never what is there: after the first one only colours are judged.
 *  `more` is asked in each theme for what it finds amiss beyond that: a list, empty where all is well. */
export async function judge(page, view, more = async () => []) {
  await page.waitForTimeout(200);
  // The same document stays from view to view, and the tester with it.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
  for (const theme of themes) {
    await choose(page, theme);
    if (pictures) await keep(page, view, theme);
    const judged = theme === themes[0] ? rules : { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };
    // Only what is amiss is described: to describe what passed takes longer than to judge.
    const how = { runOnly: judged, resultTypes: ['violations'], preload: false };
    const { violations } = await page.evaluate((options) => axe.run(document, options), how);
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    assert.deepEqual(serious.map(({ id, nodes }) => `${view}, ${theme}: ${id} ${nodes[0].html}`), []);
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wider <= 0, `${view} is ${wider} px wider than the screen in the theme ${theme}`);
    assert.deepEqual(await more(page, theme), [], `${view} in the theme ${theme}`);
  }
  await choose(page, themes[0]);
}

// As another tab does it; colours may take a moment to fade over.
async function choose(page, theme) {
  await page.evaluate((name) => {
    localStorage.setItem('duskwire-theme', name);
    dispatchEvent(new StorageEvent('storage', { key: 'duskwire-theme', newValue: name }));
  }, theme);
  await page.waitForFunction((name) => document.documentElement.dataset.theme === name, theme);
  await page.evaluate(async () => {
    const fading = document.getAnimations().filter(({ effect }) => effect?.getTiming().iterations !== Infinity);
    await Promise.allSettled(fading.map((one) => one.finished));
  });
}
