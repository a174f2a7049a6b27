// SPDX-License-Identifier: Apache-2.0
// The papers of a job, made by the local server: asked how far it is, ended where nobody wants them any more, and
// fetched page by page to be looked at.
import type { JobDocument } from '../job/document';
import type { PapersWish, ServerPapers } from '../storage/server';

/** What it needs of the server. */
export interface PapersServer {
  beginPapers(document: JobDocument, wish: PapersWish): Promise<ServerPapers>;
  papers(id: string): Promise<ServerPapers>;
  paperFile(id: string, name: string): Promise<Blob>;
  paperPage(id: string, name: string, page: number): Promise<Blob>;
  papersZip(id: string): Promise<Blob>;
  endPapers(id: string): Promise<void>;
}

const pauseMilliseconds = 300;

export class Papers {
  #server: PapersServer;
  #pause: () => Promise<void>;
  #run = 0;

  /** 0 to 1 while they are made. */
  share: number | undefined = $state();
  /** Done, and there to be fetched. */
  made: ServerPapers | undefined = $state.raw();
  /** The job that they were made of. */
  of: JobDocument | undefined = $state.raw();
  failure: string | undefined = $state();

  constructor(server: PapersServer, pause: () => Promise<void> = () => new Promise((resolve) => setTimeout(resolve, pauseMilliseconds))) {
    this.#server = server;
    this.#pause = pause;
  }

  get working(): boolean {
    return this.share !== undefined;
  }

  async make(document: JobDocument, wish: PapersWish): Promise<void> {
    await this.forget();
    const run = this.#run;
    this.share = 0;
    this.failure = undefined;
    let id: string | undefined;
    try {
      let state = await this.#server.beginPapers(document, wish);
      id = state.id;
      while (state.state === 'working' && run === this.#run) {
        await this.#pause();
        state = await this.#server.papers(id);
        if (run === this.#run) this.share = state.share;
      }
      if (run !== this.#run) return void (await this.#end(id));
      if (state.state === 'failed') throw new Error(state.message);
      this.made = state;
      this.of = document;
    } catch (error) {
      if (run === this.#run) this.failure = error instanceof Error ? error.message : String(error);
      if (id !== undefined) await this.#end(id);
    } finally {
      if (run === this.#run) this.share = undefined;
    }
  }

  /** Stops what is being made; nothing comes of it. */
  cancel(): void {
    this.#run += 1;
    this.share = undefined;
  }

  file(name: string): Promise<Blob> {
    return this.#server.paperFile(this.#id, name);
  }

  page(name: string, page: number): Promise<Blob> {
    return this.#server.paperPage(this.#id, name, page);
  }

  zip(): Promise<Blob> {
    return this.#server.papersZip(this.#id);
  }

  /** Lets the server forget them too. */
  async forget(): Promise<void> {
    this.cancel();
    const { made } = this;
    this.made = undefined;
    this.of = undefined;
    if (made) await this.#end(made.id);
  }

  get #id(): string {
    if (!this.made) throw new Error('There are no papers yet: make them first.');
    return this.made.id;
  }

  // What is left there goes by itself with the server.
  async #end(id: string): Promise<void> {
    await this.#server.endPapers(id).catch(() => undefined);
  }
}
