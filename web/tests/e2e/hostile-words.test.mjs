// SPDX-License-Identifier: Apache-2.0
// Words that are programs: each text of a job that came from elsewhere is shown as text, in every stage, and the policy
// of the page has nothing to report.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { test } from 'node:test';
import { openPage } from './browser.mjs';
import { servedStand } from './server.mjs';

const root = resolve(import.meta.dirname, '../../..');
const attack = '"><img src=x onerror="window.taken=1"><script>window.taken=1</script>';
const texts = new Set(['title', 'name', 'note', 'notes', 'address', 'label', 'text', 'email', 'phone', 'wishes', 'terms', 'by', 'who', 'complaint', 'description', 'reason']);
const here = servedStand();
const { server } = here;

/** The same tree with every text of a person's made hostile. */
function hostile(value, met) {
  if (Array.isArray(value)) return value.map((each) => hostile(each, met));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, held]) => {
      if (!texts.has(key) || typeof held !== 'string') return [key, hostile(held, met)];
      met.count += 1;
      return [key, held + attack];
    }),
  );
}

test('a job full of programs stays text in every stage', async () => {
  const met = { count: 0 };
  const document = { ...hostile(JSON.parse(readFileSync(resolve(root, 'examples/ostrey-garden.json'), 'utf8')), met), id: 'hostile' };
  assert.ok(met.count > 60, `${met.count} texts`);
  const { origin, hash } = new URL(server.address);
  const made = await fetch(`${origin}/api/jobs`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Authorization: `Bearer ${hash.replace('#token=', '')}` },
    body: JSON.stringify({ save_id: 's', document, label: attack }),
  });
  assert.equal(made.status, 201, await made.text());
  const page = await openPage(await here.browser.newContext({ viewport: { width: 1440, height: 900 } }), server.address);
  const reports = [];
  await page.exposeFunction('noteReport', (what) => reports.push(what));
  await page.evaluate(() => document.addEventListener('securitypolicyviolation', (event) => window.noteReport(`${event.violatedDirective} ${event.blockedURI}`)));
  await page.getByRole('link', { name: /Ostrey garden"><img/ }).first().click();
  await page.getByRole('application').waitFor();
  const stages = page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button');
  const count = await stages.count();
  assert.ok(count >= 6, `${count} stages`);
  for (let at = 0; at < count; at += 1) {
    await stages.nth(at).click();
    await page.getByText('Opening …').waitFor({ state: 'detached' });
    await page.waitForTimeout(300);
    assert.equal(await page.evaluate(() => window.taken), undefined, `stage ${at}`);
    assert.equal(await page.locator('img[src="x"], script:not([src])').count(), 0, `stage ${at}`);
  }
  assert.ok((await page.locator('body').innerText()).includes('<script>window.taken=1</script>'), 'shown as text');
  assert.deepEqual(reports, []);
  assert.deepEqual(page.complaints, []);
  await page.context().close();
});
