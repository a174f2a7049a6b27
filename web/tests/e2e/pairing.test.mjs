// SPDX-License-Identifier: Apache-2.0
// A phone on the local network: paired by the code on the server's screen, told what such an address cannot do, and
// forgotten while it works. The name garden.test leads to a second loopback address, which is no secure origin by name.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { judge, judgedContext } from './axe.mjs';
import { openPage } from './browser.mjs';
import { servedStand } from './server.mjs';

const door = '127.0.0.2';
const here = servedStand({ server: ['--lan', '--address', door, '--name', 'garden.test'], browser: [`--host-resolver-rules=MAP garden.test ${door}`] });
const { server } = here;

const fingerprint = async () => (await server.hears('the phone shows too: +([0-9a-f ]+[0-9a-f])'))[1];
const code = async () => (await server.hears('The code +([0-9]{4} [0-9]{4})'))[1];

async function phone(fragment = '') {
  const context = await judgedContext(here.browser, [390, 844], { hasTouch: true });
  return openPage(context, `http://garden.test:${server.port}/${fragment}`);
}

test('a phone is paired with the code, works, and is forgotten while it works', async () => {
  const print = await fingerprint();
  const page = await phone(`#server=${print.replaceAll(' ', '')}`);
  assert.doesNotMatch(page.url(), /server=/);
  const form = page.getByRole('region', { name: 'Pair this phone' });
  await form.getByText(print).waitFor();
  await form.getByText('no secure origin').waitFor();
  assert.equal(await page.evaluate(() => isSecureContext), false);
  await judge(page, 'Pairing a phone');

  await form.getByLabel('Code').fill('1234');
  await form.getByRole('button', { name: 'Pair' }).click();
  await form.getByRole('alert').getByText('has 8 digits, this one 4').waitFor();
  const right = await code();
  await form.getByLabel('Code').fill(right === '0000 0000' ? '11111111' : '00000000');
  await form.getByRole('button', { name: 'Pair' }).click();
  await form.getByRole('alert').getByText('not the code of this moment').waitFor();
  await form.getByLabel('Code').fill(right);
  await form.getByLabel('Name of this phone').fill('Crew');
  await form.getByLabel('Name of this phone').press('Enter');
  await page.getByRole('link', { name: 'The Ostrey garden' }).first().waitFor();
  assert.equal(await form.count(), 0);
  // What cannot be had at such an address, and what to do instead.
  await page.getByText('neither start without signal').first().waitFor();
  await page.getByText('Hand jobs over as files').first().waitFor();
  assert.equal(await page.evaluate(() => 'serviceWorker' in navigator), false);

  const listed = server.devices();
  assert.match(listed, /phone-[0-9a-f]{8} +Crew/);
  server.devices('--forget', /phone-[0-9a-f]{8}/.exec(listed)[0]);
  await page.reload();
  await form.waitFor();
  // The browser itself says that the address is no secure origin, and that the forgotten phone was turned away.
  assert.deepEqual(page.complaints.filter((words) => !/origin was untrustworthy|401 \(Unauthorized\)/.test(words)), []);
  await page.context().close();
});

test('a server that is not the scanned one gets no code', async () => {
  const page = await phone(`#server=${'0'.repeat(32)}`);
  const form = page.getByRole('region', { name: 'Pair this phone' });
  await form.getByRole('alert').getByText('not the server whose QR code was scanned').waitFor();
  assert.equal(await form.getByLabel('Code').count(), 0);
  await page.context().close();
});
