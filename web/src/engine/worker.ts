// SPDX-License-Identifier: Apache-2.0
// The worker that holds the engine: one request at a time, in order.
import { startEngine, type EngineModule } from './module';
import type { Request, Response } from './protocol';
import type { Problem } from './report';

const engine: Promise<EngineModule> = startEngine();

async function answer({ number, verb, arguments: given }: Request): Promise<Response> {
  try {
    const module = await engine;
    const start = performance.now();
    const text = module.call(verb, given);
    return { number, ok: true, text, milliseconds: performance.now() - start };
  } catch (error) {
    const { message, code, problems } = error as { message?: string; code?: string; problems?: readonly Problem[] };
    return { number, ok: false, message: message ?? String(error), ...(code !== undefined && { code }), problems: problems ?? [] };
  }
}

self.onmessage = async (event: MessageEvent<Request>) => {
  self.postMessage(await answer(event.data));
};
