// SPDX-License-Identifier: Apache-2.0
// The client over a worker that answers when it is told to.
import { beforeEach, describe, expect, it } from 'vitest';
import { Channel, EngineRefusal, startEngine, Superseded, type Engine } from '../../../src/engine/client';
import type { Request, Response } from '../../../src/engine/protocol';
import { garden } from '../support/garden';

class SlowWorker {
  onmessage: ((event: { data: Response }) => void) | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  readonly requests: Request[] = [];
  ended = false;
  postMessage(request: Request): void {
    this.requests.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(value: unknown, index = this.requests.length - 1): void {
    this.onmessage?.({ data: { number: this.requests[index]!.number, ok: true, text: JSON.stringify(value), milliseconds: 1 } });
  }
}

let workers: SlowWorker[];
let engine: Engine;

beforeEach(() => {
  workers = [];
  engine = startEngine(() => {
    const worker = new SlowWorker();
    workers.push(worker);
    return new Channel(worker as unknown as Worker);
  });
});

describe('the engine', () => {
  it('hands each answer to who asked, in whatever order they come', async () => {
    const first = engine.validate(garden('first'));
    const second = engine.materials(garden('second'));
    workers[0]!.answer({ second: true }, 1);
    workers[0]!.answer([], 0);
    expect(await first).toEqual([]);
    expect(await second).toEqual({ second: true });
    expect(workers[0]!.requests.map(({ verb }) => verb)).toEqual(['validate', 'materials']);
  });

  it('answers a drag while cures are being looked for', async () => {
    const cures = engine.check(garden(), { cures: true });
    const drag = engine.check(garden(), { cures: false });
    expect(workers).toHaveLength(2);
    workers[0]!.answer({ problems: [] });
    expect((await drag).value).toEqual({ problems: [] });
    workers[1]!.answer({ problems: [] });
    await cures;
  });

  it('gives up a search for cures that a newer one replaces', async () => {
    const old = engine.check(garden('old'), { cures: true });
    const given = expect(old).rejects.toBeInstanceOf(Superseded);
    const next = engine.check(garden('new'), { cures: true });
    await given;
    expect(workers[1]!.ended).toBe(true);
    workers[2]!.answer({ problems: [] });
    await next;
    const third = engine.check(garden('third'), { cures: true });
    expect(workers).toHaveLength(3);
    workers[2]!.answer({ problems: [] });
    await third;
  });

  it('passes a refusal on, and fails all that wait where the worker dies', async () => {
    const refused = engine.advise(garden());
    workers[0]!.onmessage?.({ data: { number: 1, ok: false, message: 'No.', problems: [] } });
    await expect(refused).rejects.toBeInstanceOf(EngineRefusal);
    const lost = engine.advise(garden());
    workers[0]!.onerror?.({ message: 'gone' });
    await expect(lost).rejects.toThrow('gone');
  });

  it('asks for the stock once, and again where that failed', async () => {
    const failed = engine.stock();
    workers[0]!.onmessage?.({ data: { number: 1, ok: false, message: 'No.', problems: [] } });
    await expect(failed).rejects.toThrow();
    const one = engine.stock();
    const two = engine.stock();
    workers[0]!.answer({ format: 'duskwire-catalogue' });
    expect(await one).toBe(await two);
    expect(workers[0]!.requests).toHaveLength(2);
  });
});
