// SPDX-License-Identifier: Apache-2.0
// The walk to the guide's picture of the photograph: the demo garden's front, day on the left, night on the right.
//   node tools/screenshot.mjs ../build/pictures --script tools/night-picture.mjs --sizes 1440x900 --themes dusk
// It goes to docs/pictures by itself, as JPEG: photographs are large else.
import { resolve } from 'node:path';

export default async (page) => {
  await page.getByRole('button', { name: 'Open the demo garden' }).click();
  await page.getByRole('application').waitFor();
  await page.getByRole('button', { name: 'Photograph', exact: true }).click();
  const view = page.getByRole('dialog', { name: 'Photograph' });
  await view.getByRole('application').waitFor();
  await view.getByRole('checkbox', { name: /^Night/ }).check();
  await view.getByText('Calculating …', { exact: true }).waitFor({ state: 'detached', timeout: 60_000 });
  await view.getByLabel('From day to night').fill('0.6');
  const stage = await view.getByRole('application').boundingBox();
  await page.mouse.move(stage.x + stage.width * 0.62, stage.y + stage.height * 0.5);
  await page.waitForTimeout(600);
  await page.screenshot({ path: resolve(import.meta.dirname, '../../docs/pictures/photograph.jpg'), type: 'jpeg', quality: 80 });
};
