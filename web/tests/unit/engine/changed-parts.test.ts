// SPDX-License-Identifier: Apache-2.0
// What is sent of a changed document, and that the engine answers it as if the whole had been sent.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { changedParts } from '../../../src/engine/changed-parts';
import type { JobDocument } from '../../../src/job/document';
import { applyOperations, type Operation } from '../../../src/job/operations';
import { garden } from '../support/garden';
import { realEngine } from '../support/real-engine';

const demo = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../../examples/ostrey-garden.json'), 'utf8')) as JobDocument;
const after = (document: JobDocument, ...operations: Operation[]) => applyOperations(document, operations).document;
const moveLight = (index: number, x: number): Operation => ({ op: 'set', path: ['luminaires', index, 'position'], value: [x, 2, 0.5] });

describe('changed parts', () => {
  it('are none of the same document, and only what an edit has touched', () => {
    expect(changedParts(demo, demo)).toEqual([]);
    const moved = after(demo, moveLight(3, 7));
    expect(changedParts(demo, moved)).toEqual([['/luminaires/3', moved.luminaires![3]]]);
  });

  it('give a list whole where something has come or gone', () => {
    const less = after(demo, { op: 'remove', path: ['luminaires', 0] });
    expect(changedParts(demo, less)).toEqual([['/luminaires', less.luminaires]]);
  });

  it('do without a document of another job, and with keys that come or go', () => {
    expect(changedParts(garden('a', 'one'), garden('a', 'two'))).toBeUndefined();
    const more = after(garden(), { op: 'set', path: ['client'], value: { name: 'Sam' } });
    expect(changedParts(garden(), more)).toBeUndefined();
    expect(changedParts(more, garden())).toBeUndefined();
  });

  it('write an unknown key as a pointer does', () => {
    const odd = { ...garden(), 'a/b~c': 1 } as unknown as JobDocument;
    expect(changedParts(odd, { ...odd, 'a/b~c': 2 } as unknown as JobDocument)).toEqual([['/a~1b~0c', 2]]);
  });
});

describe('the engine that keeps the document', () => {
  it('answers each step of a long edit as an engine that is sent the whole', async () => {
    const [keeping, fresh] = [await realEngine(), await realEngine()];
    let document = demo;
    for (let step = 0; step < 30; step += 1) {
      if (step % 7 === 3) document = after(document, { op: 'remove', path: ['luminaires', step] });
      else if (step % 7 === 5) document = after(document, { op: 'set', path: ['site', 'mains_v'], value: 110 + step });
      else document = after(document, moveLight(step % 20, step * 0.7));
      // Another job in between, as the list of jobs asks it.
      if (step === 11) await keeping.check(garden('other', 'another'), { cures: false });
      const { value } = await keeping.check(document, { cures: false });
      const { value: whole } = await fresh.check({ ...document, id: `${document.id}-${step}` }, { cures: false });
      expect(value).toEqual(whole);
      expect(value.report?.lamps.length).toBe(document.luminaires!.length);
    }
  });

  it('sends the whole where the engine has lost it', async () => {
    const engine = await realEngine();
    await engine.check(demo, { cures: false });
    // Seven is no place for a list of lamps, so this is refused and forgotten.
    const broken = { ...demo, luminaires: 7 } as unknown as JobDocument;
    expect((await engine.check(broken, { cures: false })).value.report).toBeUndefined();
    expect((await engine.check(demo, { cures: false })).value.report?.lamps.length).toBe(demo.luminaires!.length);
  });
});
