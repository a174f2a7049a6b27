// SPDX-License-Identifier: Apache-2.0
// Workspace: where jobs live. One interface, two homes: this browser (browser.ts) and the local server (server.ts),
// and a twin in memory that can be told to fail (memory.ts). docs/server-api.md tells the same story over the wire.
import type { CatalogueFile, JobDocument } from '../job/document';

/** What the page computed at a save, shown in the list without opening the job. */
export interface Summary {
  readonly lamp_count: number;
  readonly worst_lamp?: string;
  readonly worst_lamp_v?: number;
  readonly load_va: number;
  readonly rating_va: number;
  readonly error_count: number;
  readonly warning_count: number;
}

export interface JobEntry {
  readonly id: string;
  readonly revision: number;
  /** ISO 8601, UTC. */
  readonly changed: string;
  readonly archived: boolean;
  readonly title: string;
  readonly client: string;
  readonly place: string;
  readonly stage: string;
  readonly created: string;
  readonly summary: Summary | null;
}

/**
 * What a document grew from. Numbers are given again once a backup was put back; the checksum tells the same number apart.
 * A workspace that cannot be put back has none.
 */
export interface Base {
  readonly revision: number;
  readonly checksum?: string | undefined;
}

/** Of the same number, yet another. */
export const isOther = (one: Base, other: Base): boolean => one.checksum !== undefined && other.checksum !== undefined && one.checksum !== other.checksum;

export interface OpenedJob extends Base {
  readonly id: string;
  readonly changed: string;
  readonly document: JobDocument;
}

export interface RevisionEntry {
  readonly revision: number;
  readonly changed: string;
  readonly label: string;
  readonly bytes: number;
}

export interface Save {
  readonly id: string;
  /** The revision that the document was made from; 0 for a new job. */
  readonly baseRevision: number;
  readonly baseChecksum?: string | undefined;
  /** Random: a save that is sent twice counts once. */
  readonly saveId: string;
  readonly document: JobDocument;
  readonly label?: string;
  readonly summary?: Summary;
}

export interface Saved extends Base {
  readonly changed: string;
  /** The workspace had lost the job; this is the first that it has of it again. */
  readonly putBack?: boolean;
}

export interface Picture {
  readonly hash: string;
  readonly blob: Blob;
}

export type FailureKind =
  | 'conflict' // based on an old revision, or the id is taken
  | 'not_found'
  | 'unauthorised' // the server was started anew
  | 'unreachable' // no answer: the server is gone, or the browser's storage is closed
  | 'full' // no room
  | 'refused'; // anything else; the message says what

export interface Current extends Base {
  readonly changed: string;
  readonly saveId?: string;
}

export class StorageFailure extends Error {
  readonly kind: FailureKind;
  /** Conflict: the revision that is there now. */
  readonly currentRevision: number | undefined;
  readonly currentChanged: string | undefined;
  /** The save that made it: where it is our own, its answer was lost on the way. */
  readonly currentSaveId: string | undefined;
  readonly currentChecksum: string | undefined;

  constructor(kind: FailureKind, message: string, current?: Current) {
    super(message);
    this.name = 'StorageFailure';
    this.kind = kind;
    this.currentRevision = current?.revision;
    this.currentChanged = current?.changed;
    this.currentSaveId = current?.saveId;
    this.currentChecksum = current?.checksum;
  }
}

export interface OpenedCatalogue extends Base {
  readonly document: CatalogueFile | null;
}

/** Every method rejects with a StorageFailure and with nothing else. */
export interface Workspace {
  /** Where things are kept, in words: "this browser", "workspace gardens on this computer". */
  readonly place: string;
  /** Keeps unsent work of several workspaces apart. */
  readonly id: string;

  list(): Promise<readonly JobEntry[]>;
  open(id: string): Promise<OpenedJob>;
  openRevision(id: string, revision: number): Promise<OpenedJob>;
  revisions(id: string): Promise<readonly RevisionEntry[]>;
  /** baseRevision 0 makes the job. Conflict: nothing is stored. */
  save(save: Save): Promise<Saved>;
  duplicate(id: string, newId: string, newTitle: string): Promise<Saved>;
  archive(id: string, archived: boolean): Promise<void>;

  /** Stores a picture; the hash to refer to it by may differ from that of the blob. */
  putPicture(blob: Blob): Promise<string>;
  picture(hash: string): Promise<Blob>;

  shopCatalogue(): Promise<OpenedCatalogue>;
  saveShopCatalogue(base: Base, document: CatalogueFile): Promise<Saved>;
}
