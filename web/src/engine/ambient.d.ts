// SPDX-License-Identifier: Apache-2.0
// The built engine has no types of its own.
declare module '@engine/duskwire.mjs' {
  const create: (options: { locateFile: () => string }) => Promise<import('./module').EngineModule>;
  export default create;
}
