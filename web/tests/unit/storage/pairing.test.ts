// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { connect } from '../../../src/storage/connect';
import { HttpClient } from '../../../src/storage/http';
import { fingerprintText, pairPhone, phoneName, takeFingerprint } from '../../../src/storage/pairing';

const print = '0123456789abcdef0123456789abcdef';

interface Asked {
  readonly method: string;
  readonly path: string;
  readonly body: unknown;
}

/** A server that answers what stands under "GET session" and so on; all else is unreachable. */
function server(answers: Record<string, readonly [number, unknown]>): { http: HttpClient; asked: Asked[] } {
  const asked: Asked[] = [];
  const http = new HttpClient('http://192.168.7.2:7415/api/', (address, request) => {
    const path = String(address).replace('http://192.168.7.2:7415/api/', '');
    const method = request?.method ?? 'GET';
    asked.push({ method, path, body: typeof request?.body === 'string' ? JSON.parse(request.body) : undefined });
    const answer = answers[`${method} ${path}`];
    return answer ? Promise.resolve(new Response(JSON.stringify(answer[1]), { status: answer[0] })) : Promise.reject(new Error('gone'));
  });
  return { http, asked };
}

const refused = (message: string) => ({ error: { code: 'unauthorised', message } });

describe('a phone that the server does not know', () => {
  it('is told to pair where the server pairs', async () => {
    const { http } = server({ 'GET session': [401, refused('')], 'GET pairing': [200, { server: 'duskwire', fingerprint: print, open: true }] });
    expect(await connect(http, undefined)).toEqual({ kind: 'unpaired', server: { fingerprint: print, open: true } });
  });

  it('is a stranger on the server’s own computer, and where something else answers', async () => {
    expect(await connect(server({ 'GET session': [401, refused('')], 'GET pairing': [401, refused('')] }).http, undefined)).toEqual({ kind: 'stranger' });
    expect(await connect(server({ 'GET session': [401, refused('')], 'GET pairing': [200, { server: 'other' }] }).http, undefined)).toEqual({ kind: 'stranger' });
  });

  it('is not asked to pair once it is known, nor where there is no server', async () => {
    const session = { server: 'duskwire', workspace_id: 'w', workspace: 'gardens', version: '1', api: 1 };
    const known = server({ 'GET session': [200, session] });
    expect((await connect(known.http, undefined)).kind).toBe('server');
    expect(known.asked).toHaveLength(1);
    expect(await connect(server({}).http, undefined)).toEqual({ kind: 'none' });
  });
});

describe('pairing', () => {
  it('sends the code and the name, and says in the server’s words what went wrong', async () => {
    const good = server({ 'POST pairing': [201, { device: 'phone-1' }] });
    expect(await pairPhone(good.http, '12345678', 'Phone')).toBeUndefined();
    expect(good.asked).toEqual([{ method: 'POST', path: 'pairing', body: { code: '12345678', name: 'Phone' } }]);
    expect(await pairPhone(server({ 'POST pairing': [401, refused('Not this code.')] }).http, '0', 'Phone')).toBe('Not this code.');
    expect(await pairPhone(server({}).http, '0', 'Phone')).toMatch(/does not answer.*--lan/);
  });
});

describe('the address of the QR code', () => {
  it('gives its fingerprint once and keeps every other address', () => {
    expect(takeFingerprint(`#server=${print}`)).toEqual({ fingerprint: print, rest: '#/' });
    for (const other of ['', '#/', '#token=abc', `#server=${print}0`, '#server=', `#/job/server=${print}`]) {
      expect(takeFingerprint(other)).toEqual({ fingerprint: undefined, rest: other });
    }
    expect(fingerprintText(print)).toBe('0123 4567 89ab cdef 0123 4567 89ab cdef');
  });

  it('begins with a plain name for the device', () => {
    expect(phoneName('Mozilla/5.0 (Linux; Android 14) Mobile Safari')).toBe('Phone');
    expect(phoneName('Mozilla/5.0 (X11; Linux x86_64)')).toBe('Device');
  });
});
