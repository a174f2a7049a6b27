// SPDX-License-Identifier: Apache-2.0
// How safe this browser's storage is: asks that it may stay, and says what it got.

export interface Persistence {
  /** The browser promised not to clear it by itself; undefined where it cannot say. */
  readonly granted: boolean | undefined;
  readonly usedBytes: number | undefined;
  readonly quotaBytes: number | undefined;
  /** Whether the page may work offline here: a bare network address gets no service worker. */
  readonly secure: boolean;
}

export async function askForPersistence(): Promise<Persistence> {
  const storage = navigator.storage as StorageManager | undefined;
  const granted = await storage?.persist?.().catch(() => undefined);
  return describe(storage, granted);
}

export async function readPersistence(): Promise<Persistence> {
  const storage = navigator.storage as StorageManager | undefined;
  return describe(storage, await storage?.persisted?.().catch(() => undefined));
}

async function describe(storage: StorageManager | undefined, granted: boolean | undefined): Promise<Persistence> {
  const estimate = await storage?.estimate?.().catch(() => undefined);
  return { granted, usedBytes: estimate?.usage, quotaBytes: estimate?.quota, secure: globalThis.isSecureContext };
}
