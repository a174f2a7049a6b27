// SPDX-License-Identifier: Apache-2.0
// What page and worker say to each other. Requests and answers are JSON text on both sides of the engine, so that the
// page sees exactly what the command line prints.

/** A verb of the engine with its request, both as the WebAssembly module takes them. */
export interface Request {
  readonly number: number;
  readonly verb: string;
  readonly arguments: readonly string[];
}

export type Response =
  | { readonly number: number; readonly ok: true; readonly text: string; readonly milliseconds: number }
  | { readonly number: number; readonly ok: false; readonly message: string };
