// SPDX-License-Identifier: Apache-2.0
// A thumb on the visit's keys, for the tests beside this file.
import { stage } from './browser.mjs';

export const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

export async function takeJob(page, job) {
  await page.getByLabel('Job file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
  await page.getByRole('application').waitFor();
}

// What a tap does comes after it: nothing may be read before the page has followed.
export async function side(page, name) {
  const key = page.getByRole('navigation', { name: 'Sides of the visit' }).getByRole('button', { name, exact: true });
  await key.tap();
  await key.and(page.locator('[aria-current="true"]')).waitFor();
}

export async function begin(page, kind) {
  await stage(page, 'Visits');
  await page.getByRole('region', { name: 'Begin a visit' }).getByRole('button', { name: kind }).tap();
  await page.getByRole('button', { name: /^What / }).waitFor();
}

export async function choose(page, kind, place) {
  const what = page.getByRole('button', { name: /^What / });
  if (!(await what.textContent()).includes(kind)) {
    await what.tap();
    await page.getByRole('group', { name: 'What to read' }).getByRole('button', { name: new RegExp(`^${kind}`) }).tap();
    await what.filter({ hasText: kind }).waitFor();
  }
  const where = page.getByRole('button', { name: /^Where / });
  if ((await where.textContent()).replace('Where', '').trim() === place) return;
  if ((await where.getAttribute('aria-expanded')) === 'false') await where.tap();
  const places = page.getByRole('region', { name: 'Places' });
  await places.getByRole('button', { name: new RegExp(`^${place}\\b`) }).tap();
  await places.waitFor({ state: 'detached' });
}

/** Types a number on the pad, digit by digit, and writes it down. */
export async function read(page, kind, place, number, also) {
  await choose(page, kind, place);
  if (also) await page.getByRole('button', { name: also, exact: true }).tap();
  for (const digit of String(number)) await page.getByRole('group', { name: 'Digits' }).getByRole('button', { name: digit, exact: true }).tap();
  await page.getByRole('button', { name: 'Write it down' }).tap();
  await page.getByRole('region', { name: 'The last reading' }).getByText(new RegExp(`^${place}\\b.*${Number(number).toFixed(2)}`)).waitFor();
}

export async function see(page, kind, place, state) {
  await choose(page, kind, place);
  await page.getByRole('group', { name: 'What is seen' }).getByRole('button', { name: state }).tap();
  await page.getByRole('region', { name: 'The last reading' }).getByText(new RegExp(`^${place}\\b.*${state.toLowerCase()}`)).waitFor();
}

/** The ranked causes as text, once the engine has weighed all that was read. */
export async function causes(page) {
  await side(page, 'Find');
  await page.locator('.find[aria-busy="false"]').waitFor();
  return page.getByRole('region', { name: 'Likely causes' }).getByRole('listitem').allTextContents();
}
