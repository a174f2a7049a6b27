// SPDX-License-Identifier: Apache-2.0
// The walk to the guide's pictures at the desk: a new job, a picture beneath the plan, then the demo garden through its
// stages. tools/make_guide_pictures calls it with a server, since the papers are made there; the pictures go to
// docs/pictures by themselves, drawings as PNG, what is mostly photograph as JPEG.
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const pictures = resolve(import.meta.dirname, '../../docs/pictures');

export default async (page) => {
  const keep = (name) => page.screenshot({ path: join(pictures, name), ...(name.endsWith('.jpg') && { type: 'jpeg', quality: 80 }) });
  const button = (name) => page.getByRole('button', { name, exact: true });
  const stage = (name) => page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: new RegExp(`^${name}`) }).click();
  const quiet = () => page.waitForTimeout(1200);
  const plan = () => page.getByRole('application').first();

  const openDemo = async () => {
    await page.getByRole('button', { name: /^From …/ }).click();
    await page.getByRole('menuitem', { name: 'The demo garden' }).click();
    await page.getByRole('navigation').getByText('3 errors').waitFor();
    await quiet();
  };

  // The demo's plan as a survey that somebody sent: what lies beneath the plan of a new job.
  await page.getByRole('heading', { name: 'Jobs' }).waitFor();
  await quiet();
  await openDemo();
  const survey = join(mkdtempSync(join(tmpdir(), 'duskwire-')), 'survey.png');
  await plan().evaluate((drawing) => {
    for (const other of drawing.parentElement.children) if (other !== drawing) other.style.visibility = 'hidden';
  });
  await plan().screenshot({ path: survey });
  await page.getByRole('link', { name: 'Jobs' }).click();

  await button('New job').click();
  const dialog = page.getByRole('dialog', { name: 'New job' });
  await dialog.getByLabel('Title').fill('Front garden');
  await dialog.getByRole('button', { name: 'Make the job' }).click();
  await page.getByRole('region', { name: 'How to begin' }).waitFor();
  await quiet();
  await keep('begin.png');
  await page.getByLabel('A picture beneath the plan').setInputFiles(survey);
  await plan().locator('image').waitFor();
  await quiet();
  const box = await plan().boundingBox();
  for (const x of [0.447, 0.612]) await page.mouse.click(box.x + box.width * x, box.y + box.height * 0.45);
  await quiet();
  await keep('scale.png');
  await page.getByRole('link', { name: 'Jobs' }).click();

  await page.getByRole('link', { name: /Ostrey/ }).first().click();
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await stage('Site');
  await button('Objects').click();
  await button('Choose lamps').click();
  await page.getByLabel('What is to be lit').selectOption({ label: 'Tree: Oak' });
  await button('Find lamps for it').click();
  await page.getByRole('list', { name: 'Lamps that fit' }).waitFor({ timeout: 60_000 });
  await quiet();
  await keep('choose.png');

  await button('Levels').click();
  await button('Light').click();
  await page.getByText('Front walk').last().waitFor({ timeout: 60_000 });
  await page.waitForTimeout(4000);
  await keep('levels.png');
  await button('Light').click();

  await stage('Wiring');
  await page.getByRole('button', { name: 'Plan the wiring' }).click();
  const planning = page.getByRole('dialog', { name: 'Plan the wiring' });
  await planning.getByRole('button', { name: 'Start planning' }).click();
  await planning.getByRole('button', { name: 'Accept the planned wiring' }).waitFor({ timeout: 120_000 });
  await quiet();
  await keep('planning.png');
  await planning.getByRole('button', { name: 'Keep today’s wiring' }).click();
  await planning.waitFor({ state: 'detached' }).catch(() => undefined);

  await stage('Price');
  await page.getByRole('heading', { name: 'Options side by side' }).waitFor();
  await quiet();
  await keep('price.png');

  await stage('Papers');
  await button('Make the papers').click();
  await page.getByRole('img', { name: /page 1 of/ }).first().waitFor({ timeout: 300_000 });
  await page.waitForTimeout(3000);
  await keep('papers.jpg');

  await stage('Clock');
  await page.getByRole('heading', { name: /^The year/ }).waitFor();
  await quiet();
  await keep('clock.png');
};
