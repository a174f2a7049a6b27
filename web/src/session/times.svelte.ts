// SPDX-License-Identifier: Apache-2.0
// The year of an open job's clock: computed while somebody looks at it. The tariff is this browser's, since the job has
// no place for it.
import { EngineRefusal } from '../engine/client';
import type { Estimates } from '../engine/estimates';
import { LatestWins } from '../engine/latest';
import type { Times } from '../engine/times';
import { zoneChanges } from '../engine/zone-changes';
import type { JobDocument } from '../job/document';

const restMilliseconds = 150;
const tariffKey = 'duskwire-tariff-minor-per-kwh';

/** What the site still lacks for its times, in words; none: nothing. */
export function lacksForTimes({ site }: JobDocument): readonly string[] {
  const lacks: string[] = [];
  if (site.latitude_deg === undefined || site.longitude_deg === undefined) lacks.push('where it is: latitude and longitude');
  if (!site.time_zone) lacks.push('its time zone');
  return lacks;
}

interface Question {
  readonly document: JobDocument;
  readonly year: number;
  readonly tariff: number | undefined;
}

export class TimesAnswer {
  #queue: LatestWins<Question, Times>;
  #document: JobDocument;
  #year: number = $state(0);
  #tariff: number | undefined = $state();
  #lookers = 0;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** The last answer; of an older document while `pending`. */
  times: Times | undefined = $state.raw();
  pending = $state(false);
  failure: string | undefined = $state();

  constructor(document: JobDocument, estimates: Estimates, year = new Date().getFullYear()) {
    this.#document = document;
    this.#year = year;
    this.#tariff = rememberedTariff();
    this.#queue = new LatestWins<Question, Times>(
      async ({ document: asked, year: inYear, tariff }) => {
        const zone = zoneOf(asked.site.time_zone ?? 'UTC', inYear);
        return estimates.times(asked, { year: inYear, zone, days: true, ...(tariff !== undefined && { tariff: { price_minor_per_kwh: tariff } }) });
      },
      (times, asked) => {
        this.times = times;
        this.failure = undefined;
        this.pending = asked.document !== this.#document || asked.year !== this.#year || asked.tariff !== this.#tariff;
      },
      (error) => {
        this.pending = false;
        if (error instanceof EngineRefusal && error.code === 'ended') return;
        this.failure = error instanceof Error ? error.message : String(error);
      },
    );
  }

  get year(): number {
    return this.#year;
  }

  set year(year: number) {
    this.#year = year;
    this.#ask(0);
  }

  /** Minor units for a kilowatt-hour. */
  get tariff(): number | undefined {
    return this.#tariff;
  }

  set tariff(minorPerKwh: number | undefined) {
    this.#tariff = minorPerKwh;
    rememberTariff(minorPerKwh);
    this.#ask(0);
  }

  /** The job has changed. */
  changed(document: JobDocument): void {
    this.#document = document;
    if (this.#lookers > 0) this.#ask(restMilliseconds);
  }

  /** Somebody looks; returns how to look away. */
  watch(): () => void {
    this.#lookers += 1;
    this.#ask(0);
    return () => (this.#lookers -= 1);
  }

  stop(): void {
    clearTimeout(this.#rest);
    this.#lookers = 0;
  }

  #ask(afterMilliseconds: number): void {
    if (lacksForTimes(this.#document).length > 0) return;
    this.pending = true;
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#queue.put({ document: this.#document, year: this.#year, tariff: this.#tariff }), afterMilliseconds);
  }
}

function zoneOf(name: string, year: number): ReturnType<typeof zoneChanges> {
  try {
    return zoneChanges(name, year);
  } catch {
    throw new Error(`This browser does not know the time zone “${name}”. An IANA name is needed, such as America/Chicago.`);
  }
}

function rememberedTariff(): number | undefined {
  try {
    const given = Number(localStorage.getItem(tariffKey) ?? undefined);
    return Number.isFinite(given) ? given : undefined;
  } catch {
    return undefined;
  }
}

function rememberTariff(minorPerKwh: number | undefined): void {
  try {
    if (minorPerKwh === undefined) localStorage.removeItem(tariffKey);
    else localStorage.setItem(tariffKey, String(minorPerKwh));
  } catch {
    // Then it is asked again next time.
  }
}
