// SPDX-License-Identifier: Apache-2.0
// The workspace of the local server, by docs/server-api.md.
import type { CatalogueFile, JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import { HttpClient } from './http';
import { sha256Hex } from './sha256';
import type { Base, JobEntry, OpenedCatalogue, OpenedJob, RevisionEntry, Save, Saved, Workspace } from './workspace';

export interface ServerSession {
  readonly workspace_id: string;
  readonly workspace: string;
  readonly version: string;
  readonly api: number;
}

/** A night picture in full size, on its way. */
export interface ServerNight {
  readonly id: string;
  readonly state: 'working' | 'done' | 'failed';
  /** 0 to 1. */
  readonly share: number;
  readonly message: string;
}

/** As the engine's own wish, flat. */
export interface ServerNightWish {
  readonly view: string;
  readonly lamps?: readonly { readonly id: string; readonly share?: number }[];
}

/** What the server has made of a job, and how far it is. */
export interface ServerPapers {
  readonly id: string;
  readonly state: 'working' | 'done' | 'failed';
  /** 0 to 1. */
  readonly share: number;
  readonly message: string;
  /** Once it is done, in the order to show. */
  readonly files: readonly PaperFile[];
}

export interface PaperFile {
  readonly name: string;
  readonly title: string;
  readonly kind: 'paper' | 'list' | 'drawing' | 'calendar';
  readonly media_type: string;
  readonly bytes: number;
  /** 0 where it has no pages to look at. */
  readonly pages: number;
  /** What it lacks and why, a sentence each. */
  readonly remarks: readonly string[];
  /** Of a paper: what the check finds wrong in the job, the same on all of them; empty: nothing. */
  readonly job_errors: string;
}

export const paperKinds = ['proposal', 'crew', 'commissioning', 'owner'] as const;
export type PaperKind = (typeof paperKinds)[number];

export interface PapersWish {
  readonly size: 'a4' | 'letter';
  readonly units: 'metric' | 'us';
  readonly only?: readonly PaperKind[];
  readonly shop?: string;
  readonly made_by?: string;
}

const papersAddress = (id: string, ...more: string[]): string => ['papers', id, ...more].map(encodeURIComponent).join('/');
const baseOf = (checksum: string | undefined) => (checksum === undefined ? {} : { base_checksum: checksum });
const jobAddress = (id: string, ...more: string[]): string => ['jobs', id, ...more].map(encodeURIComponent).join('/');

export class ServerWorkspace implements Workspace {
  readonly place: string;
  readonly id: string;
  #http: HttpClient;

  constructor(http: HttpClient, session: ServerSession) {
    this.#http = http;
    this.place = `workspace “${session.workspace}”`;
    this.id = session.workspace_id;
  }

  async list(): Promise<readonly JobEntry[]> {
    return (await this.#http.json<{ jobs: readonly JobEntry[] }>('GET', 'jobs')).jobs;
  }

  open(id: string): Promise<OpenedJob> {
    return this.#http.json('GET', jobAddress(id));
  }

  openRevision(id: string, revision: number): Promise<OpenedJob> {
    return this.#http.json('GET', jobAddress(id, 'revisions', String(revision)));
  }

  async revisions(id: string): Promise<readonly RevisionEntry[]> {
    return (await this.#http.json<{ revisions: readonly RevisionEntry[] }>('GET', jobAddress(id, 'revisions'))).revisions;
  }

  save({ id, baseRevision, baseChecksum, saveId, document, label, summary }: Save): Promise<Saved> {
    const body = { save_id: saveId, document, ...(label && { label: label.slice(0, 200) }), ...(summary && { summary }) };
    if (baseRevision === 0) return this.#http.json('POST', 'jobs', body);
    return this.#http.json('PUT', jobAddress(id), { base_revision: baseRevision, ...baseOf(baseChecksum), ...body });
  }

  duplicate(id: string, newId: string, newTitle: string): Promise<Saved> {
    const body = { save_id: randomId('save', 16), id: newId, title: newTitle };
    return this.#http.json('POST', jobAddress(id, 'duplicate'), body);
  }

  async archive(id: string, archived: boolean): Promise<void> {
    await this.#http.json('POST', jobAddress(id, 'archive'), { archived });
  }

  async putPicture(blob: Blob): Promise<string> {
    const hash = await sha256Hex(await blob.arrayBuffer());
    return (await this.#http.send<{ hash: string }>('POST', `images/${hash}`, blob)).hash;
  }

  picture(hash: string): Promise<Blob> {
    return this.#http.blob(`images/${encodeURIComponent(hash)}`);
  }

  /** One at a time; the photograph must be with the server already. */
  beginNight(document: JobDocument, wish: ServerNightWish): Promise<ServerNight> {
    return this.#http.json('POST', 'nights', { document, wish });
  }

  night(id: string): Promise<ServerNight> {
    return this.#http.json('GET', `nights/${encodeURIComponent(id)}`);
  }

  nightPicture(id: string): Promise<Blob> {
    return this.#http.blob(`nights/${encodeURIComponent(id)}/picture`);
  }

  /** Ends it, or forgets it once it is done. */
  async endNight(id: string): Promise<void> {
    await this.#http.blob(`nights/${encodeURIComponent(id)}`, 'DELETE');
  }

  /** Proposal, crew set, commissioning sheet, owner's pack, lists and drawings of the job as it stands. */
  beginPapers(document: JobDocument, wish: PapersWish): Promise<ServerPapers> {
    return this.#http.json('POST', 'papers', { document, wish });
  }

  papers(id: string): Promise<ServerPapers> {
    return this.#http.json('GET', papersAddress(id));
  }

  paperFile(id: string, name: string): Promise<Blob> {
    return this.#http.blob(papersAddress(id, 'files', name));
  }

  /** A page as a picture, from 1. */
  paperPage(id: string, name: string, page: number): Promise<Blob> {
    return this.#http.blob(papersAddress(id, 'pages', name, String(page)));
  }

  papersZip(id: string): Promise<Blob> {
    return this.#http.blob(papersAddress(id, 'zip'));
  }

  /** Ends it, or forgets it once it is done. */
  async endPapers(id: string): Promise<void> {
    await this.#http.blob(papersAddress(id), 'DELETE');
  }

  shopCatalogue(): Promise<OpenedCatalogue> {
    return this.#http.json('GET', 'shop-catalogue');
  }

  saveShopCatalogue({ revision, checksum }: Base, document: CatalogueFile): Promise<Saved> {
    const body = { base_revision: revision, ...baseOf(checksum), save_id: randomId('save', 16), document };
    return this.#http.json('PUT', 'shop-catalogue', body);
  }
}
