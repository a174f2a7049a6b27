// SPDX-License-Identifier: Apache-2.0
// The client of the night worker: what is sent, and what becomes of answers, refusals and the end.
import { beforeEach, describe, expect, it } from 'vitest';
import { EngineRefusal } from '../../../src/engine/client';
import { startNight, type NightEngine } from '../../../src/engine/night';
import { NightChannel, type NightRequest, type NightResponse, type Numbered } from '../../../src/engine/night-channel';
import { garden } from '../support/garden';

class Scripted {
  onmessage: ((event: { data: NightResponse }) => void) | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  onmessageerror: (() => void) | null = null;
  readonly sent: (NightRequest & Numbered)[] = [];
  ended = false;
  postMessage(request: NightRequest & Numbered): void {
    this.sent.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(text: string, image?: ImageData): void {
    const { number } = this.sent.at(-1)!;
    this.onmessage?.({ data: { number, ok: true, text, milliseconds: 3, ...(image && { image }) } });
  }
}

const picture = { width: 2, height: 1, data: new Uint8ClampedArray(8) } as unknown as ImageData;
let worker: Scripted;
let night: NightEngine;

async function begun(): Promise<void> {
  const given = night.photograph(picture);
  worker.answer('{}');
  await given;
}

beforeEach(() => {
  worker = new Scripted();
  night = startNight(() => new NightChannel(worker as unknown as Worker));
});

describe('the night worker', () => {
  it('is given the photograph first', async () => {
    await expect(night.picture(garden(), { view: 'front' })).rejects.toBeInstanceOf(EngineRefusal);
    await begun();
    expect(worker.sent[0]).toMatchObject({ verb: 'night_photograph', image: picture });
  });

  it('is sent the look flat and what is tried on lamps as a list', async () => {
    await begun();
    const asked = night.picture(garden(), { view: 'front', look: { exposure_stops: 1 }, lamps: { a: { share: 0 }, b: { colour_temperature_k: 3000 } } });
    const [document, wish] = worker.sent.at(-1)!.given;
    expect(JSON.parse(document!)).toEqual(garden());
    expect(JSON.parse(wish!)).toEqual({ view: 'front', exposure_stops: 1, lamps: [{ id: 'a', share: 0 }, { id: 'b', colour_temperature_k: 3000 }] });
    worker.answer('{"width_px": 2, "recomputed": []}', picture);
    expect(await asked).toEqual({ image: picture, facts: { width_px: 2, recomputed: [] }, milliseconds: 3 });
  });

  it('is sent only what differs, and the whole where that does not fit', async () => {
    await begun();
    const first = garden();
    const asked = night.picture(first, { view: 'front' });
    worker.answer('{"recomputed": []}', picture);
    await asked;
    const [lamp, ...others] = first.luminaires!;
    const moved = { ...lamp!, dim_pct: 40 };
    const next = { ...first, luminaires: [moved, ...others] };
    const changed = night.picture(next, { view: 'front' });
    expect(worker.sent.at(-1)).toMatchObject({ verb: 'night_changed' });
    expect(JSON.parse(worker.sent.at(-1)!.given[0]!)).toEqual([['/luminaires/0', moved]]);
    const { number } = worker.sent.at(-1)!;
    worker.onmessage?.({ data: { number, ok: false, message: 'Send the whole.', code: 'not_found', problems: [] } });
    await Promise.resolve();
    await Promise.resolve();
    expect(worker.sent.at(-1)).toMatchObject({ verb: 'night_picture' });
    expect(JSON.parse(worker.sent.at(-1)!.given[0]!)).toEqual(JSON.parse(JSON.stringify(next)));
    worker.answer('{"recomputed": ["a"]}', picture);
    expect((await changed).facts.recomputed).toEqual(['a']);
  });

  it('refuses in the engine\'s words', async () => {
    await begun();
    const asked = night.picture(garden(), { view: 'front' });
    const { number } = worker.sent.at(-1)!;
    worker.onmessage?.({ data: { number, ok: false, message: 'Mark a wall.', code: 'invalid', problems: [] } });
    await expect(asked).rejects.toMatchObject({ message: 'Mark a wall.', code: 'invalid' });
  });

  it('answers what lies under the pointer', async () => {
    await begun();
    const asked = night.probe(3, 4);
    expect(JSON.parse(worker.sent.at(-1)!.given[0]!)).toEqual([3, 4]);
    worker.answer('{"piece": "wall", "lux": 12, "cd_m2": 1.5, "reflectance": 0.4, "site": [1, 2, 3], "lamps": []}');
    expect(await asked).toMatchObject({ piece: 'wall', lux: 12 });
  });

  it('fails what waits when it dies or is let go, and can be started anew', async () => {
    await begun();
    const asked = night.probe(1, 1);
    worker.onerror?.({ message: 'out of memory' });
    await expect(asked).rejects.toThrow('out of memory');
    const waiting = night.probe(1, 1);
    night.end();
    await expect(waiting).rejects.toMatchObject({ code: 'ended' });
    expect(worker.ended).toBe(true);
    await begun();
  });
});
