// SPDX-License-Identifier: Apache-2.0
// What there is once per page: the engine, the workspace and the desk. Views reach it by app().
import { startEngine, type Engine } from '../engine/client';
import { BrowserWorkspace } from '../storage/browser';
import { connect, takeToken } from '../storage/connect';
import { Database } from '../storage/database';
import { Desk } from '../storage/desk';
import { HttpClient } from '../storage/http';
import { MemoryDatabase } from '../storage/memory-database';
import { Outbox } from '../storage/outbox';
import { PictureStore } from '../storage/picture-store';
import { ServerWorkspace, type ServerSession } from '../storage/server';
import type { Workspace } from '../storage/workspace';
import { ShopCatalogue } from './catalogue.svelte';

/**
 * How the workspace stands: `away` and `stranger` are a server that was here before and does not serve us now; with
 * `tab` the browser keeps nothing, and what is done is gone with the tab.
 */
export type Standing = 'browser' | 'server' | 'away' | 'stranger' | 'tab';

export interface App {
  readonly engine: Engine;
  readonly database: Database;
  readonly workspace: Workspace;
  readonly desk: Desk;
  readonly pictures: PictureStore;
  readonly outbox: Outbox;
  readonly catalogue: ShopCatalogue;
  readonly standing: Standing;
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
  const database = (await kept.usable()) ? kept : new MemoryDatabase();
  const { workspace, standing } = await findWorkspace(database);
  const desk = new Desk(database, workspace.id);
  const pictures = new PictureStore(database, workspace);
  const outbox = new Outbox(database, workspace.id);
  const catalogue = new ShopCatalogue(engine, workspace);
  current = { engine, database, workspace, standing, desk, pictures, outbox, catalogue };
}

async function findWorkspace(database: Database): Promise<{ workspace: Workspace; standing: Standing }> {
  const { token, rest } = takeToken(location.hash);
  if (token !== undefined) {
    // Out of the address before anything else is done with it.
    history.replaceState(null, '', rest);
  }
  const http = new HttpClient(new URL('api/', location.href).href);
  const connection = await connect(http, token);
  if (connection.kind === 'server') {
    remember(connection.session);
    return { workspace: connection.workspace, standing: 'server' };
  }
  const known = remembered();
  if (known) return { workspace: new ServerWorkspace(http, known), standing: connection.kind === 'stranger' ? 'stranger' : 'away' };
  if (database instanceof MemoryDatabase) return { workspace: new BrowserWorkspace(database, 'this tab only'), standing: 'tab' };
  return { workspace: new BrowserWorkspace(database), standing: connection.kind === 'stranger' ? 'stranger' : 'browser' };
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
