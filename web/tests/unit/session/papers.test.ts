// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { Papers, type PapersServer } from '../../../src/session/papers.svelte';
import type { ServerPapers } from '../../../src/storage/server';
import { garden } from '../support/garden';

const wish = { size: 'a4', units: 'metric' } as const;
const file = { name: 'proposal.pdf', title: 'Proposal', kind: 'paper', media_type: 'application/pdf', bytes: 1, pages: 2, remarks: [], job_errors: '' } as const;

function serverOf(states: readonly Partial<ServerPapers>[]) {
  const calls: string[] = [];
  let at = 0;
  const next = (): Promise<ServerPapers> => Promise.resolve({ id: 'p1', state: 'working', share: 0, message: '', files: [], ...states[at++] });
  const server: PapersServer = {
    beginPapers: (_document, { size }) => (calls.push(`begin ${size}`), next()),
    papers: (id) => (calls.push(`ask ${id}`), next()),
    paperFile: (id, name) => (calls.push(`file ${id} ${name}`), Promise.resolve(new Blob(['pdf']))),
    paperPage: (id, name, page) => (calls.push(`page ${id} ${name} ${page}`), Promise.resolve(new Blob(['png']))),
    papersZip: (id) => (calls.push(`zip ${id}`), Promise.resolve(new Blob(['zip']))),
    endPapers: (id) => (calls.push(`end ${id}`), Promise.resolve()),
  };
  return { server, calls };
}

describe('papers from the server', () => {
  it('are waited for, fetched, and forgotten by the server', async () => {
    const { server, calls } = serverOf([{}, { share: 0.5 }, { state: 'done', share: 1, files: [file] }]);
    const shares: (number | undefined)[] = [];
    const papers: Papers = new Papers(server, () => (shares.push(papers.share), Promise.resolve()));
    const job = garden();
    await papers.make(job, wish);
    expect(papers.made!.files).toEqual([file]);
    expect(papers.of).toBe(job);
    expect(shares).toEqual([0, 0.5]);
    expect(papers.working).toBe(false);
    await papers.page('proposal.pdf', 2);
    expect(await (await papers.zip()).text()).toBe('zip');
    await papers.forget();
    expect(calls).toEqual(['begin a4', 'ask p1', 'ask p1', 'page p1 proposal.pdf 2', 'zip p1', 'end p1']);
    expect(() => papers.file('proposal.pdf')).toThrow('make them first');
  });

  it('are ended where they are cancelled', async () => {
    const { server, calls } = serverOf([{}, { share: 0.1 }]);
    const papers: Papers = new Papers(server, () => (papers.cancel(), Promise.resolve()));
    await papers.make(garden(), wish);
    expect(papers.made).toBeUndefined();
    expect(papers.failure).toBeUndefined();
    expect(papers.working).toBe(false);
    expect(calls.at(-1)).toBe('end p1');
  });

  it('say why they failed', async () => {
    const { server, calls } = serverOf([{}, { state: 'failed', message: 'The disk is full.' }]);
    const papers = new Papers(server, () => Promise.resolve());
    await papers.make(garden(), wish);
    expect(papers.failure).toBe('The disk is full.');
    expect(papers.working).toBe(false);
    expect(calls.at(-1)).toBe('end p1');
  });
});
