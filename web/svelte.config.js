// SPDX-License-Identifier: Apache-2.0
// Svelte 5 with runes everywhere; warnings (accessibility among them) fail the check.
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

export default {
  preprocess: vitePreprocess(),
  compilerOptions: { runes: true },
};
