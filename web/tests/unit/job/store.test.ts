// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import type { Operation } from '../../../src/job/operations';
import { JobStore } from '../../../src/job/store.svelte';
import { garden } from '../support/garden';

const title = (value: string): Operation => ({ op: 'set', path: ['title'], value });

describe('the store', () => {
  it('undoes and redoes by name', () => {
    const store = new JobStore(garden('a'));
    store.run({ label: 'Rename', changes: [title('b')] });
    expect(store.undoLabel).toBe('Rename');
    store.undo();
    expect(store.document.title).toBe('a');
    expect(store.redoLabel).toBe('Rename');
    store.redo();
    expect(store.document.title).toBe('b');
  });

  it('forgets what was undone once something else is done', () => {
    const store = new JobStore(garden('a'));
    store.run({ label: 'One', changes: [title('b')] });
    store.undo();
    store.run({ label: 'Two', changes: [title('c')] });
    expect(store.redoLabel).toBeUndefined();
    expect(store.undoLabel).toBe('Two');
  });

  it('makes one step of what is merged, until it is sealed', () => {
    const store = new JobStore(garden('a'));
    store.run({ label: 'Type', changes: [title('ab')] }, 'title');
    store.run({ label: 'Type', changes: [title('abc')] }, 'title');
    expect(store.history.entries).toHaveLength(1);
    expect(store.history.entries[0]?.forward).toEqual([title('abc')]);
    store.seal();
    store.run({ label: 'Type', changes: [title('abcd')] }, 'title');
    store.undo();
    expect(store.document.title).toBe('abc');
    store.undo();
    expect(store.document.title).toBe('a');
  });

  it('previews a drag from where it started, and commits one step', () => {
    const store = new JobStore(garden('a'));
    const seen: string[] = [];
    store.listen((document, cause) => seen.push(`${cause} ${document.title}`));
    const gesture = store.begin('Drag');
    gesture.preview([title('b')]);
    gesture.preview([title('c')]);
    gesture.commit();
    expect(seen).toEqual(['preview b', 'preview c', 'edit c']);
    expect(store.history.entries).toHaveLength(1);
    store.undo();
    expect(store.document).toEqual(garden('a'));
  });

  it('leaves no trace of a drag that was given up', () => {
    const store = new JobStore(garden('a'));
    const before = store.document;
    const gesture = store.begin('Drag');
    gesture.preview([title('b')]);
    gesture.cancel();
    gesture.preview([title('c')]);
    expect(store.document).toBe(before);
    expect(store.undoLabel).toBeUndefined();
  });

  it('goes on undoing after a restart', () => {
    const store = new JobStore(garden('a'));
    store.run({ label: 'One', changes: [title('b')] });
    const stored = JSON.parse(JSON.stringify({ document: store.document, history: store.history })) as {
      document: JobDocument;
      history: JobStore['history'];
    };
    const later = new JobStore(stored.document, stored.history);
    later.undo();
    expect(later.document.title).toBe('a');
  });

  it('undoes a replacement by another document', () => {
    const store = new JobStore(garden('a'));
    store.replace(garden('theirs'), 'Take the other version');
    store.undo();
    expect(store.document).toEqual(garden('a'));
  });
});
