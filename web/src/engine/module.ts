// SPDX-License-Identifier: Apache-2.0
// The WebAssembly module: how it is started and called. The only file that knows its raw form.
import createEngine from '@engine/duskwire.mjs';
import wasmAddress from '@engine/duskwire.wasm?url';

export interface EngineModule {
  /** A verb with its arguments as text; the answer as JSON text. Throws where the engine refuses. */
  call(verb: string, given: readonly string[]): string;
  /** RGBA, rows from the top: the photograph that nights are made of from now on. */
  givePhotograph(rgba: Uint8ClampedArray, width: number, height: number): void;
  /** The picture that the last call of night_picture made. */
  takePicture(): ImageData;
}

/**
 * The engine of a worker, begun at once. Where it does not start (no signal, and not kept on the device yet) each answer
 * tells so, and the next question tries again.
 */
export function engineOfWorker(start: () => Promise<EngineModule> = startEngine): () => Promise<EngineModule> {
  let engine: Promise<EngineModule> | undefined;
  const started = (): Promise<EngineModule> =>
    (engine ??= start().catch((error: unknown) => {
      engine = undefined;
      throw error;
    }));
  started().catch(() => undefined);
  return started;
}

async function startEngine(): Promise<EngineModule> {
  return createEngine({ locateFile: () => wasmAddress });
}
