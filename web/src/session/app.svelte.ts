// SPDX-License-Identifier: Apache-2.0
// What there is once per page: the engine, the workspace and the desk. Views reach it by app().
import { startEngine, type Engine } from '../engine/client';
import { BrowserWorkspace } from '../storage/browser';
import { Database } from '../storage/database';
import { Desk } from '../storage/desk';
import type { Workspace } from '../storage/workspace';

export interface App {
  readonly engine: Engine;
  readonly database: Database;
  readonly workspace: Workspace;
  readonly desk: Desk;
}

let current: App | undefined = $state.raw();

export function app(): App {
  if (!current) throw new Error('The page has not started yet.');
  return current;
}

export const started = (): boolean => current !== undefined;

export async function startApp(): Promise<void> {
  const database = new Database();
  const workspace = new BrowserWorkspace(database);
  current = { engine: startEngine(), database, workspace, desk: new Desk(database, workspace.id) };
}
