// SPDX-License-Identifier: Apache-2.0
// Debian's Chromium on the built page (web/dist), for the tests beside this file.
import { after, afterEach, before } from 'node:test';
import { resolve } from 'node:path';
import { chromium } from 'playwright-core';
import { preview } from 'vite';

const root = resolve(import.meta.dirname, '../..');

/** A static host for the built page on a port of its own. */
export async function host(port = 0) {
  const server = await preview({ root, preview: { port, strictPort: port !== 0, allowedHosts: ['garden.example'] }, logLevel: 'silent' });
  return { address: server.resolvedUrls.local[0], stop: () => server.close() };
}

// For whatever is waited for, on a slow machine that others keep busy. How fast the page is: web/tools/bench.mjs.
const patienceMs = 90_000;

export async function launch(more = []) {
  const browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', ...more],
  });
  const make = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await make(options);
    context.setDefaultTimeout(patienceMs);
    return context;
  };
  return browser;
}

/** Browser and host of one file of tests: there from its first test to its last. */
export function stand() {
  const here = {};
  before(async () => {
    here.browser = await launch();
    here.site = await host();
  });
  describeFailures(here);
  after(async () => {
    await here.browser.close();
    await here.site.stop();
  });
  return here;
}

/** What the reader of a log from another machine needs to know: what stood on each page when its test failed. */
export function describeFailures(here) {
  afterEach(async (ended) => {
    if (!ended.passed) await describePages(here.browser, ended);
  });
}

async function describePages(browser, ended) {
  for (const page of browser.contexts().flatMap((context) => context.pages())) {
    const text = await page.locator('body').innerText({ timeout: 2000 }).catch((error) => `(not to be read: ${error.message})`);
    ended.diagnostic(`What stood on ${page.url()}`);
    for (const line of [...(page.complaints ?? []), ...text.split(/\s*\n\s*/)].slice(0, 40)) ended.diagnostic(`| ${line.slice(0, 160)}`);
  }
}

/** A page that collects what should never be said: errors and breaches of the content security policy. */
export async function openPage(context, address) {
  const page = await context.newPage();
  page.complaints = [];
  page.on('pageerror', (error) => page.complaints.push(String(error)));
  page.on('console', (message) => {
    // Looking for the server on a plain host finds none, and one on the network may want a code first: these may fail.
    if (message.type() === 'error' && !/\/api\/(session|pairing)$/.test(message.location().url)) page.complaints.push(message.text());
  });
  await page.goto(address);
  await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
  return page;
}

export async function openDemo(page) {
  await page.getByRole('button', { name: 'Open the demo garden' }).click();
  await page.getByRole('application').waitFor();
}

export const stage = (page, name) => page.getByRole('navigation', { name: 'Stages of the work' }).getByRole('button', { name: new RegExp(`^${name}`) }).click();

/** The answer of `check` once it fails no more: for what follows the engine a moment later. */
export async function until(check) {
  for (const end = Date.now() + patienceMs; ; await new Promise((done) => setTimeout(done, 50))) {
    try {
      return await check();
    } catch (error) {
      if (Date.now() > end) throw error;
    }
  }
}

/** From here on the page needs no signal: all its files are kept on the device, and come from there. */
export const keptOnDevice = (page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null);

/** Does what makes the page load itself again, and waits for that. */
export const loadedAgain = (page, act) => Promise.all([page.waitForEvent('load'), act()]);

/** All that was done before is on the screen: two frames. */
export const drawn = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

export const title = (page) => page.getByRole('heading', { level: 1 }).textContent();

export async function rename(page, name) {
  const field = page.getByRole('textbox', { name: 'Title', exact: true });
  await field.fill(name);
  await field.press('Enter');
}
