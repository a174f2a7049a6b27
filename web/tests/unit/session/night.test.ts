// SPDX-License-Identifier: Apache-2.0
// The night of a photograph over an engine that follows a script: what is asked, what is shown, what may go wrong.
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { NightEngine, NightFacts, NightPicture, NightWish } from '../../../src/engine/night';
import type { JobDocument } from '../../../src/job/document';
import { Night } from '../../../src/session/night.svelte';
import type { ShownPicture } from '../../../src/session/photo.svelte';
import { garden } from '../support/garden';

const facts: NightFacts = { width_px: 2, height_px: 1, adaptation_cd_m2: 1, lit_share: 1, lamps: [], assumptions: ['one'], remarks: [], recomputed: [] };

class FakeNight implements NightEngine {
  given: ImageData[] = [];
  asked: { readonly document: JobDocument; readonly wish: NightWish }[] = [];
  probed: (readonly [number, number])[] = [];
  failure: Error | undefined;
  hold: Promise<void> | undefined;
  ended = false;

  photograph(image: ImageData): Promise<void> {
    this.given.push(image);
    return Promise.resolve();
  }
  async picture(document: JobDocument, wish: NightWish): Promise<NightPicture> {
    this.asked.push({ document, wish });
    await this.hold;
    if (this.failure) throw this.failure;
    return { image: { width: 2, height: 1 } as ImageData, facts, milliseconds: 7 };
  }
  probe(x: number, y: number) {
    this.probed.push([x, y]);
    return Promise.resolve({ piece: '', lux: 3, cd_m2: 1, reflectance: 0.3, site: null, lamps: [] });
  }
  end(): void {
    this.ended = true;
  }
}

// The canvas of this test draws nothing: it says how large it was.
class FakeCanvas {
  constructor(readonly width: number, readonly height: number) {}
  getContext() {
    return { drawImage: () => undefined, getImageData: () => ({ width: this.width, height: this.height }) };
  }
}
vi.stubGlobal('OffscreenCanvas', FakeCanvas);

const picture = (widthPx: number, heightPx: number): ShownPicture => ({ image: 'x', bitmap: {} as ImageBitmap, url: '', widthPx, heightPx });
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

let engines: FakeNight[];
let night: Night;
beforeEach(() => {
  engines = [];
  night = new Night(() => {
    const engine = new FakeNight();
    engines.push(engine);
    return engine;
  });
});

describe('the night', () => {
  it('is worked on at half a megapixel, and the photograph is given once', async () => {
    const large = picture(4000, 2000);
    night.ask(garden(), 'v', large);
    night.ask(garden(), 'v', large);
    await settled();
    expect(engines[0]!.given).toEqual([{ width: 1000, height: 500 }]);
    expect(night.scale).toBe(0.25);
    expect(night.image).toEqual({ width: 2, height: 1 });
    expect(night.busy).toBe(false);
    expect(night.milliseconds).toBe(7);
  });

  it('answers the newest question and skips those between', async () => {
    const shown = picture(100, 100);
    const jobs = [garden('a'), garden('b'), garden('c')];
    for (const job of jobs) night.ask(job, 'v', shown);
    await settled();
    expect(engines[0]!.asked.map(({ document }) => document.title)).toEqual(['a', 'c']);
  });

  it('switches lamps off without touching the job', async () => {
    night.switchLamp('F1', false);
    night.ask(garden(), 'v', picture(10, 10));
    await settled();
    expect(engines[0]!.asked[0]!.wish).toEqual({ view: 'v', lamps: { F1: { share: 0 } } });
    night.switchAll(true, ['F1']);
    expect(night.off.size).toBe(0);
  });

  it('says why there is none, and shows none', async () => {
    night.ask(garden(), 'v', picture(10, 10));
    await settled();
    engines[0]!.failure = new Error('The view is not calibrated.');
    night.ask(garden(), 'v', picture(10, 10));
    await settled();
    expect(night.failure).toBe('The view is not calibrated.');
    expect(night.image).toBeUndefined();
  });

  it('looks under the pointer in the size that was calculated', async () => {
    await night.probe(40, 40);
    expect(engines).toEqual([]);
    night.ask(garden(), 'v', picture(4000, 2000));
    await settled();
    await night.probe(400, 200);
    expect(engines[0]!.probed).toEqual([[100, 50]]);
    expect(night.probed?.lux).toBe(3);
  });

  it('is made larger for the client in an engine that goes again', async () => {
    night.ask(garden(), 'v', picture(4000, 2000));
    await settled();
    await night.large(garden(), 'v', picture(4000, 2000));
    expect(engines[1]!.given).toEqual([{ width: 2000, height: 1000 }]);
    expect([engines[0]!.ended, engines[1]!.ended]).toEqual([false, true]);
  });

  it('tells when its picture is there, and that there is nothing to wait for otherwise', async () => {
    await night.rest();
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => (release = resolve));
    night.ask(garden('a'), 'v', picture(10, 10));
    engines[0]!.hold = held;
    let rested = false;
    const rest = night.rest().then(() => (rested = true));
    await settled();
    night.ask(garden('b'), 'v', picture(10, 10));
    expect(rested).toBe(false);
    release();
    await rest;
    // The newer question was answered too before it rested.
    expect(engines[0]!.asked.map(({ document }) => document.title)).toEqual(['a', 'b']);
    expect(night.busy).toBe(false);
  });

  it('holds nobody up for longer than a moment', async () => {
    night.ask(garden(), 'v', picture(10, 10));
    engines[0]!.hold = new Promise(() => undefined);
    await night.rest();
    expect(night.busy).toBe(true);
  });
});
