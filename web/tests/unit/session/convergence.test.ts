// SPDX-License-Identifier: Apache-2.0
// Three devices write into one job over a workspace that is away, loses its answers and is put back from an old backup;
// pages die and start again, logs go round as files, clocks are off by a year. In the end all hold the same, and no
// entry that was ever written is lost. DUSKWIRE_SEEDS is how many histories are tried (30): 10000 of a night.
import 'fake-indexeddb/auto';
import { afterEach, expect, it, vi } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import { canonicalText, entriesOf, visitsOf } from '../../../src/job/visit-log';
import { JobSession } from '../../../src/session/job-session.svelte';
import { hasLost, startingPoint } from '../../../src/session/open-job';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { Outbox } from '../../../src/storage/outbox';
import { PictureStore } from '../../../src/storage/picture-store';
import { garden } from '../support/garden';
import { MemoryWorkspace, type Mood } from '../support/memory-workspace';

const seeds = Number(process.env['DUSKWIRE_SEEDS'] ?? 30);
const steps = 40;
const year = 365 * 86_400_000;
const start = Date.parse('2026-11-26T20:00:00Z');
const engine = { check: () => new Promise(() => undefined) } as unknown as Engine;

// xorshift32 (Marsaglia 2003): the same chances in every run.
function dice(seed: number): (below: number) => number {
  let state = (seed * 2654435761) | 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

class Device {
  session: JobSession | undefined;
  /** How far its clock is off. */
  skew = 0;
  readonly #database: Database;
  readonly #workspace: MemoryWorkspace;

  constructor(name: string, workspace: MemoryWorkspace) {
    this.#database = new Database(name);
    this.#workspace = workspace;
  }

  /** A page starts with what its desk kept unsent, else with what the workspace has. */
  async begin(): Promise<void> {
    const desk = new Desk(this.#database, 'memory');
    const kept = await desk.get('g');
    const mood = this.#workspace.mood;
    this.#workspace.mood = 'well';
    const stored = await this.#workspace.open('g');
    const lost = kept !== undefined && (await hasLost({ workspace: this.#workspace }, stored, kept));
    this.#workspace.mood = mood;
    const opening = startingPoint(stored, kept, lost);
    const means = { engine, workspace: this.#workspace, desk, pictures: new PictureStore(this.#database, this.#workspace), outbox: new Outbox(this.#database, 'memory') };
    this.session = new JobSession(means, opening);
    // A turn of its queue: what the outbox kept is in the document now.
    await this.session.log.received({ ...stored, document: { ...garden(), visits: [] } });
  }

  /** The page is gone; what it had begun to send may still arrive. */
  die(): void {
    this.session?.autosave.stop();
    this.session = undefined;
  }

  /** Sends, and answers as a person would where it is asked. */
  async send(roll: (below: number) => number): Promise<void> {
    const { session } = this;
    if (!session) return;
    await session.autosave.flush();
    if (session.autosave.conflict === undefined || this.#workspace.mood !== 'well') return;
    if (roll(2) === 0) {
      await session.autosave.keepMine();
    } else {
      const theirs = await this.#workspace.open('g');
      session.takeVersion(theirs.document, 'Take the other version');
      await session.autosave.tookTheirs(theirs, true);
      await session.autosave.flush();
    }
  }
}

afterEach(() => void vi.useRealTimers());

it('three devices converge and lose nothing, whatever happens on the way', { timeout: 60_000 + seeds * 1000 }, async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: start });
  let restored = 0;
  for (let seed = 1; seed <= seeds; seed += 1) {
    const roll = dice(seed);
    const workspace = new MemoryWorkspace();
    await workspace.save({ id: 'g', baseRevision: 0, saveId: 'first', document: garden() });
    const devices = ['a', 'b', 'c'].map((name) => new Device(`converge ${seed} ${name}`, workspace));
    for (const [index, device] of devices.entries()) device.skew = (index - 1) * year;
    const written = new Set<string>();
    const backups = [workspace.backUp()];
    const files: string[] = [];
    for (let step = 0; step < steps; step += 1) {
      const device = devices[roll(3)]!;
      vi.setSystemTime(start + step * 60_000 + device.skew);
      if (!device.session) await device.begin();
      const session = device.session!;
      const log = entriesOf(session.document);
      const what = roll(12);
      if (what < 4) {
        const visit = `v${roll(2)}`;
        written.add((await session.log.write(visit, { kind: 'reading', reading: { place: `F${roll(9)}`, quantity: 'voltage', value: roll(1300) / 100, unit: 'V' } })).id);
      } else if (what === 4 && log.length > 0) {
        const entry = log[roll(log.length)]!;
        written.add((await session.log.write(entry.visit, { kind: 'strike', strikes: entry.id, why: 'slipped' })).id);
      } else if (what === 5) {
        workspace.mood = (['well', 'well', 'away', 'answer lost', 'full'] as const satisfies readonly Mood[])[roll(5)]!;
      } else if (what === 6) {
        files.push(JSON.stringify(await session.log.file()));
      } else if (what === 7 && files.length > 0) {
        await session.log.takeInFile(files[roll(files.length)]!);
      } else if (what === 8) {
        device.die();
      } else if (what === 9) {
        device.skew = (roll(3) - 1) * year;
      } else if (what === 10) {
        backups.push(workspace.backUp());
        if (roll(4) === 0) {
          backups[roll(backups.length)]!();
          restored += 1;
        }
      } else {
        await device.send(roll);
      }
    }
    // All is well again: each page starts once more and sends, then once more to hear what the others sent.
    workspace.mood = 'well';
    for (let round = 0; round < 3; round += 1) {
      for (const device of devices) {
        vi.setSystemTime(start + (steps + round) * 60_000 + device.skew);
        device.die();
        await device.begin();
        for (let tries = 0; tries < 3; tries += 1) await device.send(roll);
      }
    }
    const { document } = await workspace.open('g');
    expect(new Set(entriesOf(document).map(({ id }) => id)), `seed ${seed}: nothing is lost`).toEqual(written);
    expect(entriesOf(document), `seed ${seed}: nothing counts twice`).toHaveLength(written.size);
    for (const device of devices) {
      device.die();
      await device.begin();
      expect(canonicalText(visitsOf(device.session!.document)), `seed ${seed}: one hash`).toBe(canonicalText(visitsOf(document)));
      await device.send(roll);
      expect([device.session!.autosave.state, device.session!.log.unsent], `seed ${seed}`).toEqual(['saved', 0]);
      device.die();
    }
  }
  expect(restored).toBeGreaterThan(seeds / 2);
});
