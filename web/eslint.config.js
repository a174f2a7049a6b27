// SPDX-License-Identifier: Apache-2.0
// The linter, and the page's own floors: a folder imports lower floors only, never a neighbour on its own floor.
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

const floors = [['units'], ['job'], ['engine', 'storage', 'offline'], ['session'], ['ui'], ['plan', 'panes'], ['planning', 'photo', 'offer', 'clock', 'papers', 'visit'], ['views']];

const forbidden = floors.flatMap((floor, level) =>
  floor.map((folder) => {
    const upward = floors.slice(level).flat().filter((other) => other !== folder);
    return {
      files: [`src/${folder}/**`],
      rules: {
        'no-restricted-imports': [
          'error',
          { patterns: upward.map((other) => ({ group: [`**/${other}/*`], message: `${folder} may not import ${other}.` })) },
        ],
      },
    };
  }),
);

export default ts.config(
  { ignores: ['dist/', 'node_modules/'] },
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  { languageOptions: { globals: { ...globals.browser, ...globals.worker, ...globals.serviceworker, ...globals.node } } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
  },
  {
    rules: {
      eqeqeq: 'error',
      'no-console': 'error',
      'max-lines': ['error', 500],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      'svelte/no-at-html-tags': 'error',
      'svelte/no-navigation-without-resolve': 'off',
      'svelte/prefer-svelte-reactivity': 'off',
    },
  },
  { files: ['vite.config.ts', 'tools/**'], rules: { 'no-console': 'off' } },
  ...forbidden,
);
