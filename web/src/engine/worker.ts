// SPDX-License-Identifier: Apache-2.0
// The worker that holds the engine: one request at a time, in order.
import { engineOfWorker } from './module';
import type { Request, Response } from './protocol';
import type { Problem } from './report';

const engine = engineOfWorker();

async function answer({ number, verb, arguments: given }: Request): Promise<Response> {
  try {
    const module = await engine();
    const start = performance.now();
    const text = module.call(verb, given);
    return { number, ok: true, text, milliseconds: performance.now() - start };
  } catch (error) {
    const { message, code, problems } = error as { message?: string; code?: string; problems?: readonly Problem[] };
    return { number, ok: false, message: message ?? String(error), ...(code !== undefined && { code }), problems: problems ?? [] };
  }
}

// A browser compiles for speed only what has run often, so the first answers of a drag would be the slow ones. While
// nobody asks, the kept document is checked again and again, a little at a time, until that is done.
const warmUp = { runs: 40, everyMilliseconds: 40, longestMilliseconds: 30 };
let runsLeft = warmUp.runs;
let pause: ReturnType<typeof setTimeout> | undefined;

async function warm(): Promise<void> {
  const response = await answer({ number: 0, verb: 'check_changed', arguments: ['[]', '{"cures":false}'] });
  runsLeft -= 1;
  // A large garden is not worth the wait of a question that comes meanwhile.
  const isQuick = response.ok && response.milliseconds <= warmUp.longestMilliseconds;
  if (isQuick && runsLeft > 0) rest();
}

function rest(): void {
  clearTimeout(pause);
  pause = setTimeout(() => void warm(), warmUp.everyMilliseconds);
}

self.onmessage = async (event: MessageEvent<Request>) => {
  clearTimeout(pause);
  self.postMessage(await answer(event.data));
  if (event.data.verb.startsWith('check_') && runsLeft > 0) rest();
};
