// SPDX-License-Identifier: Apache-2.0
// The WebAssembly module: how it is started and called. The only file that knows its raw form.
import createEngine from '@engine/duskwire.mjs';
import wasmAddress from '@engine/duskwire.wasm?url';

export interface EngineModule {
  /** A verb with its arguments as text; the answer as JSON text. Throws where the engine refuses. */
  call(verb: string, given: readonly string[]): string;
}

export async function startEngine(): Promise<EngineModule> {
  return createEngine({ locateFile: () => wasmAddress });
}
