// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { addressOf, parseRoute, type Route } from '../../../src/views/route.svelte';

it.each<Route>([
  { view: 'jobs' },
  { view: 'catalogue' },
  { view: 'settings' },
  { view: 'job', id: 'ostrey-garden', pane: undefined },
  { view: 'job', id: 'a/b %#ü', pane: 'check' },
])('$view comes back from its address', (route) => {
  expect(parseRoute(addressOf(route))).toEqual(route);
});

it('leads to the jobs from anything else', () => {
  for (const fragment of ['', '#', '#/', '#/nonsense', '#/job', '#/job/', '#/%']) expect(parseRoute(fragment)).toEqual({ view: 'jobs' });
});
