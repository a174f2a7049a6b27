// SPDX-License-Identifier: Apache-2.0
// Price, clock and papers on the real engine, at a desk and on a phone: change a lamp and see the price move with its
// reason, edit the offer and take it back, edit the clock against the sun's known times, and without a server be told
// what the papers need.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, describe, test } from 'node:test';
import { openDemo, openPage, stage, stand } from './browser.mjs';

const here = stand();
const sizes = [
  { name: 'desk', viewport: { width: 1440, height: 900 } },
  { name: 'phone', viewport: { width: 390, height: 844 }, hasTouch: true },
];

const money = (text) => Math.round(Number(/USD\s*([\d,.]+)/.exec(text)[1].replaceAll(',', '')) * 100);

for (const { name, ...look } of sizes) {
  describe(`at a ${name}`, () => {
    let context;
    after(() => context?.close());

    async function demo() {
      await context?.close();
      context = await here.browser.newContext({ ...look, locale: 'en-US' });
      const page = await openPage(context, here.site.address);
      await openDemo(page);
      // Before the volts are there, rows still change their places.
      await page.getByRole('navigation').getByText('3 errors').waitFor();
      return page;
    }
    const total = (page) => page.locator('.total strong');
    const moves = (page) => page.getByRole('region', { name: 'Why the price moved' });

    test('a lamp that goes moves the price, and the reasons add up to the move', async () => {
      const page = await demo();
      await page.getByRole('button', { name: 'Price', exact: true, expanded: false }).click();
      await total(page).waitFor();
      const before = money(await total(page).textContent());
      assert.match(await moves(page).textContent(), /has not moved/);
      // On a phone the lamps come up in the place of the price, on a desk beside it.
      if (name === 'phone') await page.getByRole('button', { name: 'Lamps', exact: true, expanded: false }).click();
      await page.locator('tbody th button').first().click();
      await page.getByRole('application').focus();
      await page.keyboard.press('Delete');
      if (name === 'phone') await page.getByRole('button', { name: 'Price', exact: true, expanded: false }).click();
      await moves(page).getByRole('listitem').first().waitFor();
      const now = money(await total(page).textContent());
      assert.ok(now < before, `${now} is less than ${before}`);
      assert.match(await moves(page).textContent(), /The price went down/);
      const whole = moves(page).getByRole('button', { name: /^All \d+ lines/ });
      if (await whole.count()) await whole.click();
      const lines = await moves(page).getByRole('listitem').allTextContents();
      const sum = lines.reduce((cents, line) => cents + Math.round(Number(/([+-]?[\d.]+)\.$/.exec(line.trim())[1]) * 100), 0);
      assert.equal(sum, now - before);
      await page.getByRole('button', { name: /^Undo/ }).first().click();
      await page.waitForFunction((wanted) => document.querySelector('.total strong')?.textContent.replaceAll(/\D/g, '') === String(wanted), before);
      assert.deepEqual(page.complaints, []);
    });

    test('a rate edited beside the price moves it, and undo brings it back', async () => {
      const page = await demo();
      await stage(page, 'Price');
      await total(page).waitFor();
      const before = await total(page).textContent();
      const field = page.getByRole('textbox', { name: 'An hour, price' });
      await field.fill('95.00');
      await field.press('Enter');
      await page.waitForFunction((old) => document.querySelector('.total strong')?.textContent !== old, before);
      await moves(page).getByText(/went up/).first().waitFor();
      await page.getByRole('button', { name: 'Undo: An hour, price' }).click();
      await page.waitForFunction((old) => document.querySelector('.total strong')?.textContent === old, before);
      const options = page.getByRole('list', { name: 'Options', exact: true });
      assert.ok((await options.getByRole('listitem').count()) >= 2);
      assert.deepEqual(page.complaints, []);
    });

    test('a price band from the client’s words stands beside the price, and follows them', async () => {
      const page = await demo();
      await stage(page, 'Price');
      await total(page).waitFor();
      const band = page.getByRole('region', { name: 'Price band from photographs' });
      const parts = band.getByRole('region', { name: 'The band by feature' }).getByRole('row');
      await band.getByText(/As drawn the job comes to/).waitFor();
      const words = band.getByRole('textbox', { name: 'In the client’s words' });
      await words.fill('The steps are dark.');
      await words.blur();
      // The table's head and one feature: two to four lights, 150 to 400 USD each.
      await band.getByText('USD\u00a0300.00 to USD\u00a01,600.00').waitFor();
      assert.equal(await parts.count(), 2);
      await words.fill('Nothing yet.');
      await words.blur();
      await band.getByText(/name nothing that could be lit/).waitFor();
      assert.deepEqual(page.complaints, []);
    });

    test('the clock follows the sun and says so for one day', async () => {
      const page = await demo();
      await stage(page, 'Clock');
      const clock = page.getByRole('region', { name: 'Clock of the job' });
      await clock.getByRole('slider', { name: 'Day' }).waitFor();
      while (!/2026/.test(await clock.getByRole('heading', { name: /^The year/ }).textContent())) {
        const year = Number(/\d{4}/.exec(await clock.getByRole('heading', { name: /^The year/ }).textContent())[0]);
        await clock.getByRole('button', { name: year > 2026 ? 'Year before' : 'Year after' }).click();
      }
      // 40.0 N 89.0 W on 2026-12-21, from the equation of the hour angle by hand: declination -23.44, sun's edge 0.833
      // below the horizon, so 4 h 40 min after a noon at 11:54 CST (equation of time +2 min): 16:34, within 3 minutes.
      await clock.getByRole('slider', { name: 'Day' }).fill('354');
      const said = clock.locator('figcaption');
      await said.getByText(/21 December/).waitFor();
      const [, sunset] = /Sunset (\d\d:\d\d)/.exec(await said.textContent());
      const minutes = (time) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
      assert.ok(Math.abs(minutes(sunset) - minutes('16:34')) <= 3, sunset);
      const entry = clock.getByRole('button', { name: /Every evening/ });
      await entry.click();
      const offset = clock.getByRole('textbox', { name: 'After sunset' });
      await offset.fill('40');
      await offset.press('Enter');
      await clock.getByText(/sunset \+ 40 min/).first().waitFor();
      const on = /Every evening: (\d\d:\d\d)/.exec(await said.textContent())[1];
      assert.ok(Math.abs(minutes(on) - minutes(sunset) - 40) <= 1, `${on} is 40 minutes after ${sunset}`);
      await page.getByRole('button', { name: /^Undo: On of/ }).click();
      await clock.getByText(/sunset \+ 15 min/).first().waitFor();
      const [file] = await Promise.all([page.waitForEvent('download'), clock.getByRole('button', { name: 'CSV' }).click()]);
      const rows = (await readFile(await file.path(), 'utf8')).trim().split('\r\n');
      assert.equal(rows.length, 366);
      assert.deepEqual(page.complaints, []);
    });

    test('without a server the papers say what they need, and lists can be taken', async () => {
      const page = await demo();
      await stage(page, 'Papers');
      await page.getByText('duskwire serve').waitFor();
      const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Price, lines (CSV)' }).click()]);
      const text = await readFile(await file.path(), 'utf8');
      assert.match(text, /Total, an estimate/);
      assert.deepEqual(page.complaints, []);
    });
  });
}
