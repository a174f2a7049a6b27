// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { FullNight, type NightServer } from '../../../src/session/full-night.svelte';
import type { ServerNight } from '../../../src/storage/server';
import { garden } from '../support/garden';

function serverOf(states: readonly Partial<ServerNight>[]) {
  const calls: string[] = [];
  let at = 0;
  const next = (): Promise<ServerNight> => Promise.resolve({ id: 'n1', state: 'working', share: 0, message: '', ...states[at++] });
  const server: NightServer = {
    beginNight: (_document, wish) => (calls.push(`begin ${wish.view}`), next()),
    night: (id) => (calls.push(`ask ${id}`), next()),
    nightPicture: (id) => (calls.push(`take ${id}`), Promise.resolve(new Blob(['picture']))),
    endNight: (id) => (calls.push(`end ${id}`), Promise.resolve()),
  };
  return { server, calls };
}

describe('the picture in full size', () => {
  it('is waited for, taken and forgotten by the server', async () => {
    const { server, calls } = serverOf([{}, { share: 0.5 }, { state: 'done', share: 1 }]);
    const shares: (number | undefined)[] = [];
    const night: FullNight = new FullNight(server, () => (shares.push(night.share), Promise.resolve()));
    const blob = await night.picture(garden(), { view: 'v' });
    expect(await blob!.text()).toBe('picture');
    expect(calls).toEqual(['begin v', 'ask n1', 'ask n1', 'take n1', 'end n1']);
    expect(shares).toEqual([0, 0.5]);
    expect(night.working).toBe(false);
  });

  it('is ended where it is cancelled', async () => {
    const { server, calls } = serverOf([{}, { share: 0.1 }, { share: 0.2 }]);
    const night: FullNight = new FullNight(server, () => (night.cancel(), Promise.resolve()));
    expect(await night.picture(garden(), { view: 'v' })).toBeUndefined();
    expect(calls).toEqual(['begin v', 'ask n1', 'end n1']);
  });

  it('says why it failed', async () => {
    const { server, calls } = serverOf([{}, { state: 'failed', message: 'The photograph is not in the workspace.' }]);
    await expect(new FullNight(server, () => Promise.resolve()).picture(garden(), { view: 'v' })).rejects.toThrow('The photograph is not in the workspace.');
    expect(calls.at(-1)).toBe('end n1');
  });
});
