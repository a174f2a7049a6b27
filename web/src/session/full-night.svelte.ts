// SPDX-License-Identifier: Apache-2.0
// The night picture in full size, calculated by the local server: asked how far it is, and ended where nobody wants it
// any more.
import type { JobDocument } from '../job/document';
import type { ServerNight, ServerNightWish } from '../storage/server';

/** What it needs of the server. */
export interface NightServer {
  beginNight(document: JobDocument, wish: ServerNightWish): Promise<ServerNight>;
  night(id: string): Promise<ServerNight>;
  nightPicture(id: string): Promise<Blob>;
  endNight(id: string): Promise<void>;
}

const pauseMilliseconds = 300;

export class FullNight {
  #server: NightServer;
  #pause: () => Promise<void>;
  #cancelled = false;

  /** 0 to 1 while it is calculated. */
  share: number | undefined = $state();

  constructor(server: NightServer, pause: () => Promise<void> = () => new Promise((resolve) => setTimeout(resolve, pauseMilliseconds))) {
    this.#server = server;
    this.#pause = pause;
  }

  get working(): boolean {
    return this.share !== undefined;
  }

  /** Undefined where it was cancelled. */
  async picture(document: JobDocument, wish: ServerNightWish): Promise<Blob | undefined> {
    this.#cancelled = false;
    this.share = 0;
    let id: string | undefined;
    try {
      let state = await this.#server.beginNight(document, wish);
      id = state.id;
      while (state.state === 'working' && !this.#cancelled) {
        await this.#pause();
        state = await this.#server.night(id);
        this.share = state.share;
      }
      if (this.#cancelled) return undefined;
      if (state.state === 'failed') throw new Error(state.message);
      return await this.#server.nightPicture(id);
    } finally {
      this.share = undefined;
      // What is left there goes by itself with the server.
      if (id !== undefined) await this.#server.endNight(id).catch(() => undefined);
    }
  }

  cancel(): void {
    this.#cancelled = true;
  }
}
