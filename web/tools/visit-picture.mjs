// SPDX-License-Identifier: Apache-2.0
// The walk to the picture of a service call on a phone in the guide: the demo garden put right, with the readings of
// examples/readings.csv typed in, where to dig.
//   node tools/screenshot.mjs ../build/pictures --script tools/visit-picture.mjs --sizes 390x844 --themes day,red
//   cp ../build/pictures/visit-read-390x844-day.png ../docs/pictures/visit-read.png
//   cp ../build/pictures/visit-find-390x844-red.png ../docs/pictures/visit-find.png
import { readFileSync } from 'node:fs';

const example = (name) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), 'utf8');
const kinds = { 'T1-A voltage': 'Output volts', 'T1-A current': 'Output amps', voltage: 'Lamp volts', lamp_state: 'Lamp seen' };

export default async (page, shoot) => {
  await page.getByLabel('Job file').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(example('ostrey-garden-sound.json')) });
  await page.getByRole('application').waitFor();
  await page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: /^Visits/ }).click();
  await page.getByRole('button', { name: 'Service call' }).click();
  for (const [place, quantity, value, , seen] of example('readings.csv').trim().split('\n').slice(1).map((line) => line.split(','))) {
    await page.getByRole('button', { name: /^What / }).click();
    await page.getByRole('group', { name: 'What to read' }).getByRole('button', { name: new RegExp(`^${kinds[`${place} ${quantity}`] ?? kinds[quantity]}`) }).click();
    const where = page.getByRole('button', { name: /^Where / });
    if ((await where.getAttribute('aria-expanded')) === 'false') await where.click();
    await page.getByLabel('Find a place').fill(place);
    await page.getByRole('region', { name: 'Places' }).getByRole('button', { name: new RegExp(`\\b${place}\\b`) }).first().click();
    if (seen) await page.getByRole('group', { name: 'What is seen' }).getByRole('button', { name: new RegExp(seen, 'i') }).click();
    else {
      for (const digit of value) await page.getByRole('group', { name: 'Digits' }).getByRole('button', { name: digit, exact: true }).click();
      await page.getByRole('button', { name: 'Write it down' }).click();
    }
    await page.waitForTimeout(400);
    if (quantity === 'voltage' && place === 'A4') {
      await page.getByText('✕ outside').waitFor({ timeout: 90_000 });
      await shoot('visit-read');
    }
  }
  await page.getByRole('navigation', { name: 'Sides of the visit' }).getByRole('button', { name: 'Find' }).click();
  await page.locator('.find[aria-busy="false"]').waitFor({ timeout: 90_000 });
  await shoot('visit-find');
};
