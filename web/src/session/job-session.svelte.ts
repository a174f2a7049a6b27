// SPDX-License-Identifier: Apache-2.0
// An open job: the document store, the live answer, autosave and selection as one object. Every pane takes it as its
// `session`.
import type { Engine } from '../engine/client';
import { startEstimates } from '../engine/estimates';
import type { Change } from '../engine/report';
import { difference, equal } from '../job/difference';
import type { JobDocument } from '../job/document';
import type { History } from '../job/history';
import { pictureRefs, renamePictures } from '../job/pictures';
import { JobStore } from '../job/store.svelte';
import type { Desk } from '../storage/desk';
import type { Outbox } from '../storage/outbox';
import type { PictureStore } from '../storage/picture-store';
import { isOther, type Base, type Workspace } from '../storage/workspace';
import type { UnitSystem } from '../units/quantity';
import { Autosave, type Unsent } from './autosave.svelte';
import { deviceId, FieldLog } from './field-log.svelte';
import { Layers } from './layers.svelte';
import { LightAnswer } from './light.svelte';
import { LiveAnswer } from './live.svelte';
import { LocateAnswer } from './locate.svelte';
import { PriceAnswer } from './price.svelte';
import { Selection } from './selection.svelte';
import { summaryOf } from './summary';
import { TimesAnswer } from './times.svelte';

/** What a session works with; App is one. */
export interface Means {
  readonly engine: Engine;
  readonly workspace: Workspace;
  readonly desk: Desk;
  readonly pictures: PictureStore;
  readonly outbox: Outbox;
}

export interface Opening extends Base {
  readonly document: JobDocument;
  readonly history?: History;
  /** The document is newer than the workspace's: send it. */
  readonly unsent?: Unsent;
}

const openSessions = new Set<JobSession>();

/** Writes what is unsent in any open job; true where everything is safe with the workspace. */
export async function flushAll(): Promise<boolean> {
  const sessions = [...openSessions];
  await Promise.all(sessions.map(({ autosave }) => autosave.flush()));
  return sessions.every(({ autosave }) => autosave.state === 'saved');
}

/** Whether the page may go: what is open is kept on this device at least, if not yet with the workspace. */
export async function mayReload(): Promise<boolean> {
  await flushAll();
  return [...openSessions].every(({ autosave }) => autosave.state !== 'failed');
}

/** The browser has taken its storage away: what is open is all that is left, and goes there again. */
export function saveAllAgain(): void {
  for (const { autosave } of openSessions) autosave.again();
}

export class JobSession {
  readonly store: JobStore;
  readonly live: LiveAnswer;
  /** How much light falls where: there while somebody looks at it. */
  readonly light: LightAnswer;
  /** What it costs and when its lights are on: there while somebody looks at them. */
  readonly price: PriceAnswer;
  readonly times: TimesAnswer;
  /** What the readings of a visit say, and the log that they are written into. */
  readonly locate: LocateAnswer;
  readonly log: FieldLog;
  readonly selection = new Selection();
  readonly layers = new Layers();
  readonly autosave: Autosave;
  readonly workspace: Workspace;
  readonly engine: Engine;
  readonly pictures: PictureStore;
  #stopListening: () => void;

  constructor({ engine, workspace, desk, pictures, outbox }: Means, opening: Opening) {
    this.engine = engine;
    this.workspace = workspace;
    this.pictures = pictures;
    this.store = new JobStore(opening.document, opening.history);
    this.live = new LiveAnswer(engine);
    this.light = new LightAnswer(opening.document);
    const estimates = startEstimates();
    this.price = new PriceAnswer(opening.document, estimates);
    this.times = new TimesAnswer(opening.document, estimates);
    this.locate = new LocateAnswer(opening.document, estimates);
    this.log = new FieldLog(this.store, outbox, deviceId());
    const { store, live } = this;
    this.autosave = new Autosave(workspace, desk, opening, {
      prepare: () => this.#sendPictures(),
      stored: (revision) => this.#askForReceipt(revision),
      join: (our) => this.#join(our),
      get document() {
        return store.document;
      },
      get history() {
        return store.history;
      },
      get summary() {
        return live.of === store.document && live.report ? summaryOf(live.report) : undefined;
      },
    });
    this.#stopListening = store.listen((document, cause, label) => {
      live.ask(document);
      this.light.changed(document);
      this.price.changed(document);
      this.times.changed(document);
      this.locate.changed(document);
      if (cause !== 'preview') this.autosave.changed(label);
    });
    openSessions.add(this);
    live.ask(store.document);
    if (opening.unsent) this.autosave.resume(opening.unsent);
    // What an earlier page wrote and could not send, or sent without hearing of it.
    void this.log.resume().then(() => this.#askForReceipt(opening.revision)).catch(() => undefined);
  }

  get document(): JobDocument {
    return this.store.document;
  }

  /** The units that people read; the document is SI whatever they are. */
  get units(): UnitSystem {
    return this.store.document.site.units ?? 'us';
  }

  /** Does changes that the engine computed (a cure, advice) as one step of undo that touches nothing else. */
  async applyChanges(label: string, changes: readonly Change[]): Promise<void> {
    const document = this.store.document;
    // Both sides through the engine's writer, so that its spelling of untouched parts makes no difference.
    const before = await this.engine.applyChanges(document, []);
    const after = await this.engine.applyChanges(document, changes);
    if (this.store.document !== document) throw new Error('The job changed while the cure was computed. Try again.');
    this.store.run({ label, changes: difference(before, after) });
  }

  /** Another version of the job in its place, as one step of undo. Logs of visits are joined: no version takes them away. */
  takeVersion(document: JobDocument, label: string): void {
    this.store.replace(document, label);
    this.log.takeIn(document.visits ?? []);
  }

  // Only what the workspace gives back has been received.
  async #askForReceipt(revision: number): Promise<void> {
    if (this.log.unsent === 0 || revision === 0) return;
    const stored = await this.workspace.openRevision(this.document.id, revision).catch(() => this.workspace.open(this.document.id));
    await this.log.received(stored);
  }

  // Where one side wrote into logs only, the other side's work goes on with both logs: nothing has to be decided.
  async #join(our: Base): Promise<boolean> {
    const { id } = this.document;
    const [base, theirs] = await Promise.all([this.workspace.openRevision(id, our.revision), this.workspace.open(id)]);
    // Another revision of that number: what we changed since ours cannot be told from it.
    if (isOther(base, our)) return false;
    const ours = this.document;
    if (onlyVisitsDiffer(base.document, ours)) this.takeVersion(theirs.document, 'Work of another device');
    else if (onlyVisitsDiffer(base.document, theirs.document)) this.log.takeIn(theirs.document.visits ?? []);
    else return false;
    return true;
  }

  // The workspace gets pictures before the document that names them, and may name them otherwise.
  async #sendPictures(): Promise<void> {
    const names = await this.pictures.send(pictureRefs(this.document).map(({ hash }) => hash));
    const changes = renamePictures(this.document, names);
    if (changes.length > 0) this.store.run({ label: 'Picture sent', changes });
  }

  /** Waits for what is unsent and lets go of the job. */
  async close(): Promise<void> {
    this.#stopListening();
    await this.autosave.flush();
    openSessions.delete(this);
    this.autosave.stop();
    this.live.stop();
    this.light.stop();
    this.price.stop();
    this.times.stop();
    this.locate.stop();
    this.price.estimates.end();
  }
}

const onlyVisitsDiffer = (a: JobDocument, b: JobDocument): boolean => equal({ ...a, visits: undefined }, { ...b, visits: undefined });
