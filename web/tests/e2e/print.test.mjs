// SPDX-License-Identifier: Apache-2.0
// The plan on paper: a PDF as the browser prints it, measured with a ruler of its own. What a sheet says of its scale
// has to be true in millimetres.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeEach, test } from 'node:test';
import { openDemo, openPage, stand } from './browser.mjs';
import { readPdf } from './paper.mjs';

const job = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../examples/ostrey-garden.json'), 'utf8'));
const here = stand();
let context;
let page;

beforeEach(async () => {
  await context?.close();
  context = await here.browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await openPage(context, here.site.address);
  await openDemo(page);
  await page.getByRole('button', { name: 'More for this job' }).click();
  await page.getByRole('menuitem', { name: 'Print the plan' }).click();
  await page.getByRole('button', { name: 'Print', exact: true }).waitFor();
});

const choose = (label, value) => page.getByLabel(label, { exact: true }).selectOption(value);
const print = async () => readPdf(await page.pdf({ preferCSSPageSize: true }));
const near = (got, wanted, tolerance, what) => assert.ok(Math.abs(got - wanted) <= tolerance, `${what}: ${got.toFixed(3)} mm, wanted ${wanted.toFixed(3)} mm`);

// The circles of the lamps: the only ones of that size over the key (beside it, across).
function lampsOf({ paths, words }, turn) {
  const key = words.find(({ text }) => text === 'Key');
  const inPlan = ({ right, bottom }) => (turn === 'portrait' ? bottom < key.top : right < key.left);
  return paths
    .filter((path) => path.curved && inPlan(path) && Math.abs(path.right - path.left - 2.953) < 0.03 && Math.abs(path.bottom - path.top - 2.953) < 0.03)
    .map(({ left, right, top, bottom }) => ({ x: (left + right) / 2, y: (top + bottom) / 2 }));
}

const extreme = (list, value) => list.reduce((best, one) => (value(one) > value(best) ? one : best));

for (const [paper, turn, ratio, widthMm, heightMm] of [
  ['letter', 'portrait', 360, 215.9, 279.4],
  ['a4', 'landscape', 480, 297, 210],
  ['a3', 'portrait', 192, 297, 420],
  ['tabloid', 'portrait', 240, 279.4, 431.8],
]) {
  test(`${paper}, ${turn}, 1:${ratio}: the paper, the bar and the lamps are as long as they say`, async () => {
    await choose('Paper', paper);
    await choose('Direction', turn);
    await choose('Scale', String(ratio));
    const pdf = await print();
    // Chromium rounds the sides of a page to a hundredth of an inch.
    near(pdf.widthMm, widthMm, 0.26, 'width of the page');
    near(pdf.heightMm, heightMm, 0.26, 'height of the page');
    const words = pdf.words.find(({ text }, index) => text === 'This' && pdf.words[index + 1].text === 'bar');
    const beside = pdf.paths.filter(({ left, right, top, bottom }) => right < words.left && words.left - right < 5 && right - left > 50 && bottom - top < 4 && top > words.top - 3 && bottom < words.bottom + 3);
    assert.equal(beside.length, 1);
    near(beside[0].right - beside[0].left, 100, 0.1, 'bar');
    const drawn = lampsOf(pdf, turn);
    assert.equal(drawn.length, job.luminaires.length);
    const site = job.luminaires.map(({ position: [x, y] }) => ({ x, y: -y }));
    // Known by where they lie: southmost, northmost, westmost and eastmost of the garden.
    const [south, north, west, east] = [({ y }) => y, ({ y }) => -y, ({ x }) => -x, ({ x }) => x].map((value) => ({ drawn: extreme(drawn, value), site: extreme(site, value) }));
    for (const [one, other] of [[south, north], [west, east]]) {
      near(other.drawn.x - one.drawn.x, ((other.site.x - one.site.x) * 1000) / ratio, 0.2, 'across');
      near(other.drawn.y - one.drawn.y, ((other.site.y - one.site.y) * 1000) / ratio, 0.2, 'along');
    }
    assert.deepEqual(page.complaints, []);
  });
}

test('one sheet a page: the plan and the tables, and nothing of the screen', async () => {
  const both = await print();
  assert.equal(both.pages, 2);
  assert.match(both.text, /The Ostrey garden/);
  assert.match(both.text, /Page 1 of 2[\s\S]*Page 2 of 2/);
  assert.match(both.text, /F5 +Pond, far bank +.*10\.65 +9\.76 to .*out at worst +T2-B/);
  assert.match(both.text, /Estimate: computed, not measured\. Local code and a licensed/);
  assert.doesNotMatch(both.text, /Print the plan|Direction|Undo|Labels/);
  await page.getByLabel('Tables of lights and outputs').uncheck();
  const plan = await print();
  assert.equal(plan.pages, 1);
  assert.match(plan.text, /Page 1 of 1/);
});

test('a scale that is too large is named as such, and the next that fits is one tap away', async () => {
  const scale = page.getByLabel('Scale', { exact: true });
  assert.equal(await scale.evaluate((select) => select.selectedOptions[0].textContent), `Largest: 1" = 30' (1:360)`);
  await scale.selectOption('96');
  await page.getByRole('status').getByText(/^At 1" = 8' \(1:96\) the plan takes .* inches\. This sheet has room for/).waitFor();
  await page.getByRole('button', { name: `Take 1" = 30' (1:360)` }).click();
  assert.equal(await scale.inputValue(), '360');
  assert.equal(await page.getByText(/the plan takes/).count(), 0);
  await page.getByRole('img', { name: `Plan of The Ostrey garden at 1" = 30' (1:360), 40 lights` }).waitFor();
});

test('printing changes nothing in the job, and leads back to where one came from', async () => {
  await choose('Paper', 'a3');
  await print();
  // With every layer as it is at first, nothing that is printed is missing.
  assert.equal(await page.getByText(/Hidden on the plan/).count(), 0);
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByRole('application').waitFor();
  assert.ok(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled());
  await page.getByText('Saved in this browser').first().waitFor();
  assert.deepEqual(page.complaints, []);
});

test('a press of Print opens the dialog of the browser', async () => {
  await page.evaluate(() => {
    window.print = () => (document.title = 'printed');
  });
  await page.getByRole('button', { name: 'Print', exact: true }).focus();
  await page.keyboard.press('Enter');
  assert.equal(await page.title(), 'printed');
});
