#!/usr/bin/env node
// SPDX-License-Identifier: Apache-2.0
// Pictures of the page for the eye: serves web/dist (or takes a running address), walks to a view, shoots it in several
// sizes and themes.
//   node tools/screenshot.mjs OUT [--url ADDRESS] [--sizes 1440x900,390x844] [--themes day,dusk] [--script FILE.mjs]
// The script's default export gets the Playwright page after the list of jobs is there, and brings it to the view.
import { mkdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { preview } from 'vite';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    url: { type: 'string' },
    sizes: { type: 'string', default: '1440x900,390x844' },
    themes: { type: 'string', default: 'day,dusk' },
    script: { type: 'string' },
  },
});
const out = resolve(positionals[0] ?? 'screenshots');
const walk = values.script ? (await import(pathToFileURL(resolve(values.script)).href)).default : async () => {};
const server = values.url ? undefined : await preview({ root: import.meta.dirname + '/..', preview: { port: 0 }, logLevel: 'silent' });
const address = values.url ?? server.resolvedUrls.local[0];
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
await mkdir(out, { recursive: true });
for (const size of values.sizes.split(',')) {
  const [width, height] = size.split('x').map(Number);
  for (const theme of values.themes.split(',')) {
    const context = await browser.newContext({ viewport: { width, height }, hasTouch: width < 600, deviceScaleFactor: 1 });
    await context.addInitScript((name) => localStorage.setItem('duskwire-theme', name), theme);
    const page = await context.newPage();
    page.on('console', (message) => ['error', 'warning'].includes(message.type()) && process.stderr.write(`${size} ${theme}: ${message.text()}\n`));
    page.on('pageerror', (error) => process.stderr.write(`${size} ${theme}: ${error}\n`));
    await page.goto(address);
    await walk(page, async (name) => page.screenshot({ path: `${out}/${name}-${size}-${theme}.png` }));
    await page.screenshot({ path: `${out}/end-${size}-${theme}.png` });
    await context.close();
  }
}
await browser.close();
await server?.close();
process.exit(0);
