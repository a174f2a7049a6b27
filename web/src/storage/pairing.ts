// SPDX-License-Identifier: Apache-2.0
// A phone on the local network and the server that does not know it yet, by docs/server-api.md.
import type { HttpClient } from './http';
import { StorageFailure } from './workspace';

/** A server that pairs phones. */
export interface PairingServer {
  /** 32 hex digits, the same as on the server's own screen. */
  readonly fingerprint: string;
  /** No more after too many wrong codes. */
  readonly open: boolean;
}

/** The server as one that pairs, if it is one and we came by the door to the network. */
export async function askPairing(http: HttpClient): Promise<PairingServer | undefined> {
  try {
    const answer = await http.json<Partial<PairingServer> & { server?: string }>('GET', 'pairing');
    return answer.server === 'duskwire' && answer.fingerprint ? { fingerprint: answer.fingerprint, open: answer.open === true } : undefined;
  } catch {
    return undefined;
  }
}

/** Nothing where it went well, else what to do in words. The key comes as a cookie that no script reads. */
export async function pairPhone(http: HttpClient, code: string, name: string): Promise<string | undefined> {
  try {
    await http.json('POST', 'pairing', { code, name });
    return undefined;
  } catch (error) {
    return error instanceof StorageFailure && error.kind !== 'unreachable'
      ? error.message
      : 'The server does not answer. Its door to the network may have shut by itself: start it again with --lan.';
  }
}

/** The fingerprint in the address that the QR code holds, and the address without it. */
export function takeFingerprint(fragment: string): { readonly fingerprint: string | undefined; readonly rest: string } {
  const match = /^#server=([0-9a-f]{32})$/.exec(fragment);
  return match ? { fingerprint: match[1], rest: '#/' } : { fingerprint: undefined, rest: fragment };
}

/** As the server's screen shows it. */
export const fingerprintText = (fingerprint: string): string => fingerprint.replace(/(....)(?=.)/g, '$1 ');

/** A name to begin with, by what the browser says it runs on. */
export function phoneName(agent: string): string {
  if (/\bMobi|\bPhone\b/.test(agent)) return 'Phone';
  return /\bTablet\b|\bPad\b/.test(agent) ? 'Tablet' : 'Device';
}
