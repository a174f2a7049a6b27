// SPDX-License-Identifier: Apache-2.0
// Health lines of jobs whose last save brought none (imported, saved by another program): computed one after the
// other in the background, and remembered while the page lives.
import type { JobEntry, Summary } from '../storage/workspace';
import type { App } from './app.svelte';
import { summaryOf } from './summary';

const keyOf = ({ id, revision }: JobEntry): string => `${id} ${revision}`;

export class Health {
  #app: App;
  #known = $state.raw<ReadonlyMap<string, Summary>>(new Map());
  #stopped = false;

  constructor(app: App) {
    this.#app = app;
  }

  of(entry: JobEntry): Summary | undefined {
    return entry.summary ?? this.#known.get(keyOf(entry));
  }

  async compute(entries: readonly JobEntry[]): Promise<void> {
    for (const entry of entries) {
      if (this.#stopped) return;
      if (this.of(entry)) continue;
      const summary = await this.#ask(entry).catch(() => undefined);
      if (summary) this.#known = new Map(this.#known).set(keyOf(entry), summary);
    }
  }

  stop(): void {
    this.#stopped = true;
  }

  async #ask({ id }: JobEntry): Promise<Summary | undefined> {
    const { document } = await this.#app.workspace.open(id);
    const { value } = await this.#app.engine.check(document, { cures: false });
    return value.report && summaryOf(value.report);
  }
}
