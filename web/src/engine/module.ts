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

export async function startEngine(): Promise<EngineModule> {
  return createEngine({ locateFile: () => wasmAddress });
}
