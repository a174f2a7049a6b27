// SPDX-License-Identifier: Apache-2.0
// What there is once per page: the engine, the workspace and the desk. Views reach it by app().
import { startEngine, type Engine } from '../engine/client';
import { BrowserWorkspace } from '../storage/browser';
import { connect, takeToken, type Connection } from '../storage/connect';
import { Database } from '../storage/database';
import { Desk } from '../storage/desk';
import { HttpClient } from '../storage/http';
import { MemoryDatabase } from '../storage/memory-database';
import { Outbox } from '../storage/outbox';
import { pairPhone, takeFingerprint, type PairingServer } from '../storage/pairing';
import { PictureStore } from '../storage/picture-store';
import { ServerWorkspace, type ServerSession } from '../storage/server';
import type { Workspace } from '../storage/workspace';
import { ShopCatalogue } from './catalogue.svelte';
import { saveAllAgain } from './job-session.svelte';

/**
 * How the workspace stands: `away` and `stranger` are a server that was here before and does not serve us now;
 * `unpaired` is one on the network that wants the code on its screen first; with
 * `tab` the browser keeps nothing, and what is done is gone with the tab.
 */
export type Standing = 'browser' | 'server' | 'away' | 'stranger' | 'unpaired' | 'tab';

export interface App {
  readonly engine: Engine;
  readonly database: Database;
  readonly workspace: Workspace;
  readonly desk: Desk;
  readonly pictures: PictureStore;
  readonly outbox: Outbox;
  readonly catalogue: ShopCatalogue;
  readonly standing: Standing;
  /** Where it is `unpaired`. */
  readonly pairing?: Pairing;
}

export interface Pairing {
  readonly server: PairingServer;
  /** Out of the QR code by which the page was opened. */
  readonly expectedFingerprint: string | undefined;
  /** Nothing where it went well, else what to do. */
  readonly pair: (code: string, name: string) => Promise<string | undefined>;
}

interface Found {
  readonly workspace: Workspace;
  readonly standing: Standing;
  readonly pairing?: Pairing;
}

const rememberedKey = 'duskwire-server';
let current: App | undefined = $state.raw();

export function app(): App {
  if (!current) throw new Error('The page has not started yet.');
  return current;
}

export const started = (): boolean => current !== undefined;

export async function startApp(): Promise<void> {
  const engine = startEngine();
  // A server's new address in the tab of the old one changes the part behind # only: begin again with its token.
  addEventListener('hashchange', () => takeToken(location.hash).token !== undefined && location.reload());
  const kept = new Database();
  kept.onlost = saveAllAgain;
  const database = (await kept.usable()) ? kept : new MemoryDatabase();
  const { workspace, standing, pairing } = await findWorkspace(database);
  const desk = new Desk(database, workspace.id);
  const pictures = new PictureStore(database, workspace);
  const outbox = new Outbox(database, workspace.id);
  const catalogue = new ShopCatalogue(engine, workspace);
  current = { engine, database, workspace, standing, desk, pictures, outbox, catalogue, ...(pairing && { pairing }) };
}

async function findWorkspace(database: Database): Promise<Found> {
  const { token, rest } = takeToken(location.hash);
  if (token !== undefined) {
    // Out of the address before anything else is done with it.
    history.replaceState(null, '', rest);
  }
  const scanned = takeFingerprint(location.hash);
  if (scanned.fingerprint !== undefined) history.replaceState(null, '', scanned.rest);
  const http = new HttpClient(new URL('api/', location.href).href);
  const connection = await connect(http, token);
  if (connection.kind === 'server') {
    remember(connection.session);
    return { workspace: connection.workspace, standing: 'server' };
  }
  const pairing = pairingOf(connection, http, scanned.fingerprint);
  const known = remembered();
  if (known) return { workspace: new ServerWorkspace(http, known), standing: standingOf(connection, 'away'), ...pairing };
  if (database instanceof MemoryDatabase) return { workspace: new BrowserWorkspace(database, 'this tab only'), standing: standingOf(connection, 'tab'), ...pairing };
  return { workspace: new BrowserWorkspace(database), standing: standingOf(connection, 'browser'), ...pairing };
}

function standingOf({ kind }: Connection, otherwise: Standing): Standing {
  return kind === 'stranger' || kind === 'unpaired' ? kind : otherwise;
}

function pairingOf(connection: Connection, http: HttpClient, expectedFingerprint: string | undefined): { readonly pairing?: Pairing } {
  if (connection.kind !== 'unpaired') return {};
  return { pairing: { server: connection.server, expectedFingerprint, pair: (code, name) => pairPhone(http, code, name) } };
}

// A page that came from a server belongs to it, also while it is gone: its work waits on the desk.
function remember(session: ServerSession): void {
  try {
    localStorage.setItem(rememberedKey, JSON.stringify(session));
  } catch {
    // Then a reload without the server cannot know.
  }
}

function remembered(): ServerSession | undefined {
  try {
    return JSON.parse(localStorage.getItem(rememberedKey) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
}
