// SPDX-License-Identifier: Apache-2.0
// Every view in every theme, at the desk and on a phone: nothing serious by axe-core, nothing wider than the screen,
// no complaint of the browser.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { judge, judgedContext, themes } from './axe.mjs';
import { openDemo, openPage, rename, stage, stand } from './browser.mjs';

const here = stand();

// Panes and dialogs of an open job that no stage brings forward by itself.
async function judgeSelection(page) {
  const pane = (name) => page.getByRole('button', { name, exact: true }).click();
  await pane('Objects');
  await page.getByRole('button', { name: /Pond, far bank/ }).first().click();
  await pane('Properties');
  await judge(page, 'Properties of a light');
  await page.getByText('The article in this job').click();
  await judge(page, 'an article');
  await page.getByRole('button', { name: /^Light Path/ }).click();
  await judge(page, 'choosing an article');
  await page.getByRole('button', { name: 'Cancel' }).click();
  await pane('Findings');
  await page.getByText('Why').first().click();
  await judge(page, 'Findings');
  await pane('Volts along the run');
  await page.getByText('As a table').click();
  await judge(page, 'Volts along the run');
  await page.getByRole('button', { name: 'More for this job' }).click();
  await page.getByRole('menuitem', { name: 'Versions' }).click();
  await judge(page, 'Versions');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'More for this job' }).click();
  await page.getByRole('menuitem', { name: 'Print the plan' }).click();
  await page.getByRole('button', { name: 'Print', exact: true }).waitFor();
  await judge(page, 'Print the plan');
  await page.getByLabel('Scale', { exact: true }).selectOption('96');
  await judge(page, 'a scale too large for the paper');
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
}

async function judgePlanning(page) {
  await page.getByRole('button', { name: 'Plan the wiring' }).click();
  const view = page.getByRole('dialog', { name: 'Plan the wiring' });
  await view.getByLabel('Cable, light or transformer').selectOption('cable/F-C1');
  await view.getByRole('button', { name: 'Stays as it is' }).click();
  await judge(page, 'Plan the wiring');
  await view.getByLabel('Search for').selectOption('60');
  await view.getByRole('button', { name: 'Start planning' }).click();
  await view.getByText(/less$/).first().waitFor();
  await judge(page, 'a search for the wiring');
  // A machine so slow that the search is over by now has nothing to stop.
  const stop = view.getByRole('button', { name: /^Stop, keep/ });
  if (await stop.isVisible()) await stop.click();
  await view.getByRole('button', { name: 'Accept the planned wiring' }).waitFor();
  await judge(page, 'a planned wiring');
  await view.getByRole('button', { name: /^Run / }).first().click();
  await judge(page, 'a planned run');
  await view.getByRole('button', { name: 'Keep today’s wiring' }).click();
}

// The light: on the plan, in its panes, and on the demo's photograph step by step.
async function judgeLight(page) {
  const press = (name) => page.getByRole('button', { name, exact: true }).click();
  await press('Light');
  const legend = page.getByRole('group', { name: 'Light on the ground' });
  await legend.getByRole('list').waitFor();
  await judge(page, 'light on the plan');
  // On a phone the legend has its two looks once no pane is open beside the plan.
  const pane = page.locator('.sheet.up button[aria-expanded="true"]');
  const above = (await pane.count()) > 0;
  if (above) await pane.click();
  await legend.getByRole('button', { name: 'Pools of light' }).click();
  await judge(page, 'pools of light');
  if (above) await page.getByRole('button', { name: 'Objects' }).click();
  await press('Light');
  await press('Levels');
  const levels = page.getByRole('region', { name: 'Levels', exact: true });
  await levels.getByRole('list', { name: 'Places and their light' }).waitFor();
  await levels.getByText('More', { exact: true }).first().click();
  await judge(page, 'Levels');
  await press('Choose lamps');
  const choosing = page.getByRole('region', { name: 'Choose lamps', exact: true });
  await choosing.getByLabel('What is to be lit').selectOption('tree/tree-oak');
  await choosing.getByRole('button', { name: 'Find lamps for it' }).click();
  await choosing.getByRole('list', { name: 'Lamps that fit' }).waitFor();
  await judge(page, 'Choose lamps');
}

async function judgePhotograph(page) {
  await page.getByRole('button', { name: 'Photograph', exact: true }).click();
  const view = page.getByRole('dialog', { name: 'Photograph' });
  await view.getByRole('application').waitFor();
  for (const step of ['Photograph', 'Known wall', 'Surfaces', 'Measure', 'Lamps and night']) {
    await view.getByRole('navigation').getByRole('button', { name: step }).click();
    await judge(page, `photograph ${step}`);
  }
  await view.getByRole('checkbox', { name: /^Night/ }).check();
  await view.getByText('Calculating …', { exact: true }).waitFor({ state: 'detached' });
  await view.getByLabel('Lamp', { exact: true }).selectOption({ index: 1 });
  await judge(page, 'the night');
  await view.getByRole('button', { name: 'Plan', exact: true }).click();
}

async function judgeBeginnings(page) {
  for (const way of ['New job', 'From a table of lamps', 'On a picture']) {
    await page.getByRole('button', { name: way, exact: true }).click();
    await judge(page, `begin ${way}`);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  }
}

// Two tabs change the same job: the one that comes later is asked.
async function judgeConflict(page, context) {
  await page.getByRole('link', { name: 'The Ostrey garden' }).click();
  await page.getByRole('application').waitFor();
  const other = await context.newPage();
  await other.goto(page.url());
  for (const tab of [page, other]) {
    await tab.getByRole('application').waitFor();
    // On a phone the panes come up when one of them is asked for.
    if (tab.viewportSize().width < 900) await tab.getByRole('button', { name: 'Objects' }).click();
    await stage(tab, 'Site');
  }
  await rename(other, 'From the other tab');
  await other.locator('header').getByText('Saved in this browser').waitFor();
  await other.close();
  await rename(page, 'From this tab');
  await page.getByRole('dialog', { name: 'This job was saved elsewhere' }).waitFor();
  await judge(page, 'saved elsewhere');
}

for (const [width, height] of [[1440, 900], [390, 844]]) {
  test(`${themes.join(', ')} at ${width} by ${height}`, async () => {
    const context = await judgedContext(here.browser, [width, height]);
    const page = await openPage(context, here.site.address);
    await judge(page, 'no jobs');
    for (const view of ['Settings', 'Catalogue', 'Jobs']) {
      await page.getByRole('navigation').getByRole('link', { name: view, exact: true }).click();
      await judge(page, view);
    }
    await judgeBeginnings(page);
    await openDemo(page);
    if (width < 900) await page.getByRole('button', { name: 'Objects' }).click();
    for (const name of ['Price', 'Clock', 'Papers', 'Site', 'Placement', 'Wiring', 'Transformers', 'Check', 'Materials']) {
      await stage(page, name);
      if (name === 'Price') await page.getByRole('region', { name: 'The band by feature' }).waitFor();
      if (name === 'Clock') await page.getByRole('slider', { name: 'Day' }).waitFor();
      await judge(page, name);
    }
    await judgePlanning(page);
    await judgeLight(page);
    await judgePhotograph(page);
    await judgeSelection(page);
    await page.getByRole('link', { name: 'Jobs' }).click();
    await judge(page, 'a job in the list');
    await judgeConflict(page, context);
    assert.deepEqual(page.complaints, []);
    await context.close();
  });
}
