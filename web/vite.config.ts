// SPDX-License-Identifier: Apache-2.0
// Builds the page as static files that any plain web host can serve from any folder. Nothing inline (the content
// security policy forbids it); the engine comes from build/wasm as an asset of its own.
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';
import { offlinePlugin } from './tools/offline-plugin.ts';

const root = import.meta.dirname;
const engineFolder = process.env.DUSKWIRE_ENGINE ?? resolve(root, '../build/wasm');
if (!existsSync(resolve(engineFolder, 'duskwire.mjs'))) {
  throw new Error(`The engine is missing (${engineFolder}/duskwire.mjs): tools/build_wasm.sh builds it.`);
}

export default defineConfig({
  root,
  base: './',
  plugins: [svelte(), offlinePlugin(resolve(root, 'src/offline/service-worker.js'), resolve(root, 'public'))],
  resolve: {
    alias: { '@engine': engineFolder, '@examples': resolve(root, '../examples') },
    ...(process.env.VITEST && { conditions: ['browser'] }),
  },
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: true,
  },
  server: { port: 5173, strictPort: true, fs: { allow: [root, engineFolder, resolve(root, '../examples')] } },
  test: {
    include: ['tests/unit/**/*.test.ts'],
    environment: 'node',
  },
});
