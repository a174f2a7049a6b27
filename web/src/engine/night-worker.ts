// SPDX-License-Identifier: Apache-2.0
// The worker that calculates nights: an engine of its own, one request at a time, in order.
import { engineOfWorker, type EngineModule } from './module';
import type { NightAnswer, NightRequest, NightResponse, Numbered } from './night-channel';
import type { Problem } from './report';

const engine = engineOfWorker();

function run(module: EngineModule, { verb, given, image }: NightRequest): NightAnswer {
  const start = performance.now();
  if (image) module.givePhotograph(image.data, image.width, image.height);
  const text = image ? '{}' : module.call(verb, given);
  const picture = verb === 'night_picture' || verb === 'night_changed' ? module.takePicture() : undefined;
  return { text, ...(picture && { image: picture }), milliseconds: performance.now() - start };
}

self.onmessage = async ({ data }: MessageEvent<NightRequest & Numbered>) => {
  const { number } = data;
  try {
    const answer = run(await engine(), data);
    const response: NightResponse = { number, ok: true, ...answer };
    self.postMessage(response, { transfer: answer.image ? [answer.image.data.buffer] : [] });
  } catch (error) {
    const { message, code, problems } = error as { message?: string; code?: string; problems?: readonly Problem[] };
    const response: NightResponse = { number, ok: false, message: message ?? String(error), ...(code !== undefined && { code }), problems: problems ?? [] };
    self.postMessage(response);
  }
};
