// SPDX-License-Identifier: Apache-2.0
// The live answer over an engine that follows a script: what is asked, and what goes before it.
import { beforeEach, describe, expect, it } from 'vitest';
import type { CheckAnswer, Engine, Timed } from '../../../src/engine/client';
import type { JobDocument } from '../../../src/job/document';
import { LiveAnswer } from '../../../src/session/live.svelte';
import { garden } from '../support/garden';

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

let asked: string[];
let live: LiveAnswer;
beforeEach(() => {
  asked = [];
  const check = (document: JobDocument): Promise<Timed<CheckAnswer>> => {
    asked.push(document.title!);
    return Promise.resolve({ value: { problems: [], report: undefined }, milliseconds: 3 });
  };
  live = new LiveAnswer({ check } as Partial<Engine> as Engine);
});

describe('the live answer', () => {
  it('is asked at once, and the newest document wins', async () => {
    for (const title of ['a', 'b', 'c']) live.ask(garden(title));
    await settled();
    live.stop();
    expect(asked).toEqual(['a', 'c']);
    expect(live.pending).toBe(false);
  });

  it('lets go first what a person waits for more, then asks once for the newest', async () => {
    let release = (): void => undefined;
    const first = new Promise<void>((resolve) => (release = resolve));
    const done = live.giveWay(() => first);
    for (const title of ['a', 'b', 'c']) live.ask(garden(title));
    await settled();
    expect(asked).toEqual([]);
    release();
    await settled();
    expect(asked).toEqual(['c']);
    done();
    live.ask(garden('d'));
    live.stop();
    expect(asked).toEqual(['c', 'd']);
  });
});
