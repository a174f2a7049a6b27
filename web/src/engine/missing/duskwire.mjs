// SPDX-License-Identifier: Apache-2.0
// Stands where the engine belongs until it is built; answers nothing.
export default function missing() {
  throw new Error('The engine is not built: run tools/build_wasm.sh and start anew.');
}
