// SPDX-License-Identifier: Apache-2.0
// Is the local server behind this page? Exchanges the token of its address for a session, once.
import { HttpClient } from './http';
import { askPairing, type PairingServer } from './pairing';
import { ServerWorkspace, type ServerSession } from './server';
import { StorageFailure } from './workspace';

/** What the page found where its server would be. */
export type Connection =
  | { readonly kind: 'server'; readonly workspace: ServerWorkspace; readonly session: ServerSession }
  /** There is one, but it knows us no more: it was started anew and its new address is needed. */
  | { readonly kind: 'stranger' }
  /** It is on the local network and pairs phones; this one it does not know, or no more. */
  | { readonly kind: 'unpaired'; readonly server: PairingServer }
  /** Plain files, or the server is gone. */
  | { readonly kind: 'none' };

/** The token in the page's address, and the address without it. */
export function takeToken(fragment: string): { readonly token: string | undefined; readonly rest: string } {
  const match = /^#token=([A-Za-z0-9_-]+)/.exec(fragment);
  return match ? { token: match[1], rest: '#/' } : { token: undefined, rest: fragment };
}

export async function connect(http: HttpClient, token: string | undefined): Promise<Connection> {
  try {
    const session = token === undefined ? await ask(http) : await http.json<ServerSession>('POST', 'session', { token });
    return session ? { kind: 'server', workspace: new ServerWorkspace(http, session), session } : { kind: 'none' };
  } catch (error) {
    if (!(error instanceof StorageFailure) || error.kind !== 'unauthorised') return { kind: 'none' };
    const server = await askPairing(http);
    return server ? { kind: 'unpaired', server } : { kind: 'stranger' };
  }
}

// A plain host answers anything to this address, or nothing.
async function ask(http: HttpClient): Promise<ServerSession | undefined> {
  const answer = await http.json<Partial<ServerSession> & { server?: string }>('GET', 'session');
  return answer.server === 'duskwire' && answer.workspace_id ? (answer as ServerSession) : undefined;
}
