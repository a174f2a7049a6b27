// SPDX-License-Identifier: Apache-2.0
// The server's interface as docs/server-api.md has it, against a recorder in place of the network.
import { describe, expect, it } from 'vitest';
import { connect, takeToken } from '../../../src/storage/connect';
import { HttpClient } from '../../../src/storage/http';
import { ServerWorkspace } from '../../../src/storage/server';
import { garden } from '../support/garden';

interface Sent {
  readonly method: string;
  readonly address: string;
  readonly body: unknown;
}

function network(status: number, answer: unknown): { http: HttpClient; sent: Sent[] } {
  const sent: Sent[] = [];
  const fetchIt = async (address: RequestInfo | URL, request: RequestInit = {}): Promise<Response> => {
    const body = typeof request.body === 'string' ? JSON.parse(request.body) : request.body;
    sent.push({ method: request.method ?? 'GET', address: String(address), body });
    return new Response(typeof answer === 'string' ? answer : JSON.stringify(answer), { status });
  };
  return { http: new HttpClient('http://127.0.0.1:4000/api/', fetchIt as typeof fetch), sent };
}

const session = { workspace_id: 'w-1', workspace: 'gardens', version: '0.2.0', api: 1 };

describe('the workspace of the server', () => {
  it('saves with base revision and save id', async () => {
    const { http, sent } = network(200, { id: 'g', revision: 13, changed: 'x' });
    const saved = await new ServerWorkspace(http, session).save({ id: 'g', baseRevision: 12, saveId: 's1', document: garden(), label: 'Move' });
    expect(saved.revision).toBe(13);
    expect(sent).toEqual([
      { method: 'PUT', address: 'http://127.0.0.1:4000/api/jobs/g', body: { base_revision: 12, save_id: 's1', document: garden(), label: 'Move' } },
    ]);
  });

  it('names the checksum of the base, and hears which one is there instead', async () => {
    const { http, sent } = network(409, { error: { code: 'conflict', message: 'Put back.', current_revision: 2, current_checksum: 'theirs' } });
    const workspace = new ServerWorkspace(http, session);
    const save = workspace.save({ id: 'g', baseRevision: 2, baseChecksum: 'ours', saveId: 's1', document: garden() });
    await expect(save).rejects.toMatchObject({ kind: 'conflict', currentRevision: 2, currentChecksum: 'theirs' });
    await expect(workspace.saveShopCatalogue({ revision: 2, checksum: 'ours' }, { format: 'duskwire-catalogue', version: 1 })).rejects.toMatchObject({ kind: 'conflict' });
    for (const { body } of sent) expect(body).toMatchObject({ base_revision: 2, base_checksum: 'ours' });
  });

  it('makes a job that has no revision yet', async () => {
    const { http, sent } = network(201, { id: 'g', revision: 1, changed: 'x' });
    await new ServerWorkspace(http, session).save({ id: 'g', baseRevision: 0, saveId: 's1', document: garden() });
    expect(sent[0]).toEqual({ method: 'POST', address: 'http://127.0.0.1:4000/api/jobs', body: { save_id: 's1', document: garden() } });
  });

  it('tells a conflict with what is there now', async () => {
    const { http } = network(409, { error: { code: 'conflict', message: 'Saved.', current_revision: 14, current_changed: 'y', current_save_id: 's9' } });
    const save = new ServerWorkspace(http, session).save({ id: 'g', baseRevision: 12, saveId: 's1', document: garden() });
    await expect(save).rejects.toMatchObject({ kind: 'conflict', message: 'Saved.', currentRevision: 14, currentSaveId: 's9' });
  });

  it.each([
    [401, 'unauthorised'],
    [404, 'not_found'],
    [413, 'refused'],
    [503, 'unreachable'],
    [507, 'full'],
  ])('answers %i as %s', async (status, kind) => {
    const { http } = network(status, { error: { code: 'x', message: 'Words.' } });
    await expect(new ServerWorkspace(http, session).open('g')).rejects.toMatchObject({ kind, message: 'Words.' });
  });

  it('is unreachable where the network fails or the answer is broken off', async () => {
    const dead = new HttpClient('http://127.0.0.1:4000/api/', () => Promise.reject(new TypeError('failed')));
    await expect(new ServerWorkspace(dead, session).list()).rejects.toMatchObject({ kind: 'unreachable' });
    const { http } = network(200, '{"jobs": [');
    await expect(new ServerWorkspace(http, session).list()).rejects.toMatchObject({ kind: 'unreachable' });
  });

  it('names pictures by their content and takes the name that the server gives', async () => {
    const { http, sent } = network(201, { hash: 'given' });
    expect(await new ServerWorkspace(http, session).putPicture(new Blob(['abc']))).toBe('given');
    // SHA-256 of "abc": FIPS 180-4 example.
    expect(sent[0]?.address).toBe('http://127.0.0.1:4000/api/images/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});

describe('looking for the server', () => {
  it('exchanges the token of the address', async () => {
    expect(takeToken('#token=abc_-1')).toEqual({ token: 'abc_-1', rest: '#/' });
    expect(takeToken('#/job/x')).toEqual({ token: undefined, rest: '#/job/x' });
    const { http, sent } = network(200, { server: 'duskwire', ...session });
    expect((await connect(http, 'abc')).kind).toBe('server');
    expect(sent[0]).toMatchObject({ method: 'POST', body: { token: 'abc' } });
  });

  it('tells plain files from a server that does not know the page any more', async () => {
    expect((await connect(network(404, '<!doctype html>').http, undefined)).kind).toBe('none');
    expect((await connect(network(200, '<!doctype html>').http, undefined)).kind).toBe('none');
    expect((await connect(network(200, { server: 'other' }).http, undefined)).kind).toBe('none');
    expect((await connect(network(401, { error: { code: 'unauthorised', message: 'x' } }).http, undefined)).kind).toBe('stranger');
  });
});
