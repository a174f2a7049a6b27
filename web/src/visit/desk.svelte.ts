// SPDX-License-Identifier: Apache-2.0
// Which visit is open, which of its sides is looked at, and the reading that is about to be taken.
import type { NextToRead } from '../engine/locate';
import { isLogged, type LoggedVisit, type Visit } from '../job/visit';
import { signatureOf, visitsOf } from '../job/visit-log';
import type { JobSession } from '../session/job-session.svelte';
import { askedFor, kindOf, placesFor, readingOf, type Clamped, type ReadingKind, type Wanted } from './reading-kinds';
import type { Seen } from '../job/visit';
import { localMoment } from './words';

export type Side = 'visit' | 'read' | 'find' | 'log' | 'built' | 'walk';

export class VisitDesk {
  readonly session: JobSession;
  side: Side = $state('visit');
  #visit: string | undefined = $state();
  kind: ReadingKind = $state('output_v');
  place = $state('');
  clamped: Clamped = $state('one');
  at = $state('');
  lifted = $state('');
  /** What the engine asked for, in its words, while that is what is being read. */
  asked: string | undefined = $state();
  /** The entry that was written last. */
  lastEntry: string | undefined = $state();

  constructor(session: JobSession) {
    this.session = session;
    const today = localMoment(new Date()).date;
    const open = visitsOf(session.document).filter((visit): visit is LoggedVisit => isLogged(visit)).findLast((visit) => visit.date.startsWith(today) || !visit.signed_off);
    if (open) this.choose(open.id);
    if (open) this.side = 'read';
  }

  get visit(): LoggedVisit | undefined {
    return visitsOf(this.session.document).find((visit): visit is LoggedVisit => isLogged(visit) && visit.id === this.#visit);
  }

  /** A visit that is signed takes no more readings; a log that came in later breaks the signature. */
  get closed(): boolean {
    return this.visit !== undefined && signatureOf(this.visit.log)?.since === 0;
  }

  choose(id: string | undefined): void {
    this.#visit = id;
    this.lastEntry = undefined;
    this.session.locate.look(id);
  }

  async begin(facts: Pick<Visit, 'date' | 'kind'> & Partial<Visit>): Promise<void> {
    this.choose(await this.session.log.begin(facts));
    this.side = 'read';
  }

  take(kind: ReadingKind): void {
    this.kind = kind;
    this.asked = undefined;
    this.at = '';
    this.clamped = 'one';
    const places = placesFor(this.session.document, kindOf(kind));
    // Where there is but one place nobody need choose it.
    if (!places.some(({ id }) => id === this.place)) this.place = places.length === 1 ? places[0]!.id : '';
  }

  ask(next: NextToRead): void {
    const wanted = askedFor(this.session.document, next);
    this.take(wanted.kind);
    this.place = wanted.place;
    this.clamped = wanted.clamped;
    this.at = wanted.at;
    this.lifted = wanted.lifted;
    this.asked = next.text;
    this.side = 'read';
  }

  get wanted(): Wanted {
    const { kind, place, clamped, at, lifted } = this;
    return { kind, place, clamped, at, lifted };
  }

  /** Writes the reading down. */
  async read(got: number | Seen): Promise<void> {
    if (!this.visit || this.place === '') return;
    const reading = readingOf(this.wanted, got, localMoment(new Date()).time);
    const entry = await this.session.log.write(this.visit.id, { kind: 'reading', reading });
    this.lastEntry = entry.id;
    this.asked = undefined;
  }

  /** The lamps that nobody has looked at on this visit are lit. */
  async restIsLit(lamps: readonly string[]): Promise<void> {
    const { visit } = this;
    if (!visit) return;
    const { time } = localMoment(new Date());
    const entries = await Promise.all(
      lamps.map((place) => this.session.log.write(visit.id, { kind: 'reading', reading: { place, quantity: 'lamp_state', seen: 'lit', time } })),
    );
    this.lastEntry = entries.at(-1)?.id;
    this.asked = undefined;
  }

  async strike(entry: string, why: string): Promise<void> {
    if (this.visit) await this.session.log.write(this.visit.id, { kind: 'strike', strikes: entry, why });
  }
}
