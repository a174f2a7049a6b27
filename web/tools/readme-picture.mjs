// SPDX-License-Identifier: Apache-2.0
// The walk to the picture of the page in the README: the demo garden, its one low lamp selected, the volts along its run.
//   node tools/screenshot.mjs ../build/pictures --script tools/readme-picture.mjs --sizes 1600x1000 --themes day,dusk
//   cp ../build/pictures/page-1600x1000-day.png ../docs/pictures/page.png
export default async (page, shoot) => {
  await page.getByRole('button', { name: 'Open the demo garden' }).click();
  await page.getByRole('application').waitFor();
  await page.getByRole('navigation').getByText('3 errors').waitFor();
  await page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: /^Wiring/ }).click();
  await page.getByRole('button', { name: 'Findings' }).click();
  await page.getByRole('article', { name: 'Error: Pond, far bank (F5)' }).getByRole('button', { name: /^Tap 13/ }).waitFor();
  const lamp = page.getByRole('group', { name: /^Volts against distance/ }).getByRole('button', { name: /^Pond, far bank/ });
  await lamp.hover();
  await page.waitForTimeout(400);
  await shoot('page');
};
