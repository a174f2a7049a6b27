// SPDX-License-Identifier: Apache-2.0
// The real engine without a worker: the page's client over the WebAssembly module in this process.
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { resolve } from 'node:path';
import { Channel, startEngine, type Engine } from '../../../src/engine/client';
import type { EngineModule } from '../../../src/engine/module';
import type { Request, Response } from '../../../src/engine/protocol';

const folder = resolve(import.meta.dirname, '../../../../build/wasm');

export async function realEngine(): Promise<Engine> {
  const { default: create } = (await import(/* @vite-ignore */ pathToFileURL(`${folder}/duskwire.mjs`).href)) as {
    default: (options: { wasmBinary: Uint8Array }) => Promise<EngineModule>;
  };
  const module = await create({ wasmBinary: readFileSync(`${folder}/duskwire.wasm`) });
  return startEngine(() => new Channel(workerOver(module)));
}

function workerOver(module: EngineModule): Worker {
  const worker = {
    onmessage: undefined as ((event: { data: Response }) => void) | undefined,
    terminate: () => undefined,
    postMessage({ number, verb, arguments: given }: Request) {
      queueMicrotask(() => worker.onmessage?.({ data: answer(module, number, verb, given) }));
    },
  };
  return worker as unknown as Worker;
}

function answer(module: EngineModule, number: number, verb: string, given: readonly string[]): Response {
  try {
    return { number, ok: true, text: module.call(verb, given), milliseconds: 0 };
  } catch (error) {
    const { message, code, problems } = error as { message: string; code: string; problems?: [] };
    return { number, ok: false, message, code, problems: problems ?? [] };
  }
}
