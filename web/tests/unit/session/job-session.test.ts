// SPDX-License-Identifier: Apache-2.0
// A whole job in the page on the real engine: live answer, cures as single steps of undo, taps.
import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import { difference } from '../../../src/job/difference';
import type { JobDocument } from '../../../src/job/document';
import { JobSession } from '../../../src/session/job-session.svelte';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { Outbox } from '../../../src/storage/outbox';
import { PictureStore } from '../../../src/storage/picture-store';
import { MemoryWorkspace } from '../support/memory-workspace';
import { realEngine } from '../support/real-engine';

const ostrey = JSON.parse(readFileSync('../examples/ostrey-garden.json', 'utf8')) as JobDocument;
let engine: Engine;
let session: JobSession;
let number = 0;

beforeAll(async () => {
  engine = await realEngine();
});

beforeEach(async () => {
  const workspace = new MemoryWorkspace();
  const database = new Database(`session ${++number}`);
  await workspace.save({ id: ostrey.id, baseRevision: 0, saveId: 'x', document: ostrey });
  session = new JobSession({ engine, workspace, desk: new Desk(database, 'memory'), pictures: new PictureStore(database, workspace), outbox: new Outbox(database, 'memory') }, { document: ostrey, revision: 1 });
  await cured();
});

afterEach(() => session.close());

// The answer for the document as it is, with cures.
const cured = (): Promise<void> =>
  vi.waitFor(() => {
    expect(session.live.failure).toBeUndefined();
    expect(session.live.of).toBe(session.document);
    expect(session.live.withCures).toBe(true);
  }, 20_000);
const errors = (): string[] => (session.live.report?.findings ?? []).filter(({ severity }) => severity === 'error').map(({ id, subject }) => `${id} ${subject}`);

describe('a job in the page', () => {
  it('shows the three mistakes that were planted in the demo garden', () => {
    expect(errors()).toHaveLength(3);
    expect(session.live.lamps.size).toBe(40);
  });

  it('is put right by the computed cures, each one step of undo that touches little', async () => {
    let rounds = 0;
    while (errors().length > 0) {
      expect(++rounds).toBeLessThan(10);
      const before = session.document;
      const finding = session.live.report!.findings.find(({ severity, cures }) => severity === 'error' && cures.length > 0)!;
      const gone = `${finding.id} ${finding.subject}`;
      await session.applyChanges(finding.cures[0]!.text, finding.cures[0]!.changes);
      expect(difference(before, session.document).length).toBeLessThan(6);
      await cured();
      expect(errors()).not.toContain(gone);
    }
    expect(session.live.report?.sound).toBe(true);
    for (let step = 0; step < rounds; step += 1) session.store.undo();
    expect(session.document).toEqual(ostrey);
  });

  it('answers a tap at once: every lamp of that output moves with it, the others hardly', async () => {
    const before = session.live.lamps;
    const path = ['transformers', { id: 'T1' }, 'outputs', 0, 'tap_v'];
    const output = session.document.transformers![0]!.outputs[0]!;
    session.store.run({ label: 'Tap', changes: [{ op: 'set', path, value: output.tap_v === 15 ? 13 : 15 }] });
    await cured();
    for (const [id, lamp] of session.live.lamps) {
      const change = lamp.nominal_v - before.get(id)!.nominal_v;
      if (lamp.output === output.id) expect(Math.abs(change), id).toBeGreaterThan(0.1);
      else expect(Math.abs(change), id).toBeLessThan(0.5);
    }
  });

  it('keeps the last answer in sight and says what is wrong while a document cannot be read', async () => {
    session.store.run({ label: 'Break', changes: [{ op: 'set', path: ['site', 'mains_v'], value: 'much' }] });
    await vi.waitFor(() => expect(session.live.of).toBe(session.document));
    expect(session.live.problems.some(({ pointer }) => pointer === '/site/mains_v')).toBe(true);
    expect(session.live.report?.lamps).toHaveLength(40);
    session.store.undo();
  });
});
