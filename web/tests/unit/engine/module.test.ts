// SPDX-License-Identifier: Apache-2.0
import { expect, test, vi } from 'vitest';
import { engineOfWorker, type EngineModule } from '../../../src/engine/module';

const module = {} as EngineModule;

test('the engine of a worker is begun before anybody asks, and once', async () => {
  const start = vi.fn(async () => module);
  const engine = engineOfWorker(start);
  expect(start).toHaveBeenCalledTimes(1);
  expect(await engine()).toBe(module);
  expect(await engine()).toBe(module);
  expect(start).toHaveBeenCalledTimes(1);
});

test('an engine that did not start says so when it is asked, and is tried again by the next question', async () => {
  const start = vi.fn(async () => module);
  start.mockRejectedValueOnce(new TypeError('Failed to fetch'));
  start.mockRejectedValueOnce(new TypeError('Failed to fetch'));
  const engine = engineOfWorker(start);
  await new Promise((done) => setTimeout(done)); // vitest fails where a rejection is left unhandled meanwhile
  await expect(engine()).rejects.toThrow('Failed to fetch');
  expect(await engine()).toBe(module);
  expect(start).toHaveBeenCalledTimes(3);
});
