// SPDX-License-Identifier: Apache-2.0
// The log of a visit: what stands, what is struck, who signed for what, and that logs of several phones join to one,
// in whatever order, however often and by whatever clock their entries arrive.
import { describe, expect, it } from 'vitest';
import { isLogged, type LoggedVisit, type Visit } from '../../../src/job/visit';
import { canonicalText, inOrder, joinedLog, joinedVisits, nextMoment, nextNumber, signatureOf, told, withEntries, type LogBody, type LogEntry } from '../../../src/job/visit-log';

const volts = (place: string, value: number): LogBody => ({ kind: 'reading', reading: { place, quantity: 'voltage', value, unit: 'V' } });

// A phone: what it has seen, and a clock of its own.
class Phone {
  log: readonly LogEntry[] = [];
  constructor(readonly device: string, readonly clock: () => Date) {}
  write(body: LogBody): LogEntry {
    const number = nextNumber(this.log, this.device);
    const entry: LogEntry = { ...body, id: `${this.device}-${number}`, visit: 'v', device: this.device, number, at: nextMoment(this.log, this.clock()) };
    this.log = joinedLog(this.log, [entry]);
    return entry;
  }
  hear(entries: readonly LogEntry[]): void {
    this.log = joinedLog(this.log, entries);
  }
}

const visitOf = (log: readonly LogEntry[]): LoggedVisit => told({ id: 'v', date: '2026-03-02', kind: 'service', log });
const clock = (iso = '2026-03-02T20:00:00Z') => () => new Date(iso);

describe('what a log tells', () => {
  it('strikes a wrong reading by a later entry, and keeps both', () => {
    const phone = new Phone('a', clock());
    const wrong = phone.write(volts('F5', 1.26));
    phone.write(volts('F5', 12.6));
    phone.write({ kind: 'strike', strikes: wrong.id, why: 'read off the wrong line' });
    const visit = visitOf(phone.log);
    expect(visit.readings).toEqual([{ place: 'F5', quantity: 'voltage', value: 12.6, unit: 'V' }]);
    expect(visit.log).toHaveLength(3);
  });

  it('takes the last word on each fact, and null as a fact that is said no longer', () => {
    const phone = new Phone('a', clock());
    phone.write({ kind: 'facts', facts: { meter: 'old', meter_accuracy_pct: 0.5, weather: 'dry' } });
    phone.write({ kind: 'facts', facts: { meter: 'new', meter_accuracy_pct: null } });
    expect(visitOf(phone.log)).toMatchObject({ meter: 'new', weather: 'dry' });
    expect(visitOf(phone.log)).not.toHaveProperty('meter_accuracy_pct');
  });

  it('holds a signature for just the entries that it saw', () => {
    const phone = new Phone('a', clock());
    phone.write(volts('F1', 12));
    phone.write({ kind: 'sign', signed_by: 'Ada', covers: phone.log.length });
    expect(visitOf(phone.log).signed_off).toBe('Ada, 2026-03-02 20:00 UTC');
    phone.write(volts('F2', 12));
    expect(visitOf(phone.log)).not.toHaveProperty('signed_off');
    expect(signatureOf(phone.log)?.since).toBe(1);
    phone.write({ kind: 'sign', signed_by: 'Ada', covers: phone.log.length });
    expect(visitOf(phone.log).signed_off).toContain('Ada');
  });

  it('breaks a signature when another phone wrote before it and was heard later', () => {
    const [one, other] = [new Phone('a', clock('2026-03-02T21:00:00Z')), new Phone('b', clock('2026-03-02T20:00:00Z'))];
    one.write(volts('F1', 12));
    one.write({ kind: 'sign', signed_by: 'Ada', covers: 1 });
    other.write(volts('F2', 12));
    one.hear(other.log);
    expect(signatureOf(one.log)?.since).toBe(1);
    expect(visitOf(one.log)).not.toHaveProperty('signed_off');
  });

  it('says in the notes why a trench was closed without records', () => {
    const phone = new Phone('a', clock());
    phone.write({ kind: 'facts', facts: { notes: 'Gate code asked.' } });
    phone.write({ kind: 'backfill', without: ['S1', 'S2'], why: 'storm coming' });
    expect(visitOf(phone.log).notes).toBe('Gate code asked.\nClosed without a record of S1, S2: storm coming');
  });

  it('is written later than all that it saw, whatever the clock says', () => {
    const [fast, slow] = [new Phone('a', clock('2027-03-02T20:00:00Z')), new Phone('b', clock('2026-03-02T20:00:00Z'))];
    const reading = fast.write(volts('F1', 1));
    slow.hear(fast.log);
    const strike = slow.write({ kind: 'strike', strikes: reading.id, why: 'slipped' });
    expect(strike.at > reading.at).toBe(true);
    expect(inOrder(slow.log).at(-1)).toBe(strike);
  });
});

describe('joining', () => {
  // xorshift32 (Marsaglia 2003): the same chances in every run.
  function dice(seed: number): (below: number) => number {
    let state = seed;
    return (below) => {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 0) % below;
    };
  }

  it('makes the same of three phones’ logs however they meet: no entry is lost, none counts twice', () => {
    for (let seed = 1; seed <= 400; seed += 1) {
      const roll = dice(seed * 2654435761);
      const years = ['2025', '2026', '2027'];
      const phones = ['a', 'b', 'c'].map((device, index) => new Phone(device, clock(`${years[(index + seed) % 3]}-03-02T20:00:0${roll(10)}Z`)));
      const written: LogEntry[] = [];
      const backups: (readonly LogEntry[])[] = [[]];
      for (let step = 0; step < 40; step += 1) {
        const [one, other] = [phones[roll(3)]!, phones[roll(3)]!];
        const what = roll(6);
        if (what < 3) written.push(one.write(volts(`F${roll(9)}`, roll(1300) / 100)));
        else if (what === 3 && one.log.length > 0) written.push(one.write({ kind: 'strike', strikes: one.log[roll(one.log.length)]!.id, why: 'x' }));
        else if (what === 4) one.hear([...other.log].reverse());
        else if (roll(2) === 0) backups.push(one.log);
        else one.hear(backups[roll(backups.length)]!);
      }
      // At the end each hears each, twice, in an order of its own.
      for (const one of phones) for (const other of [...phones, ...phones].sort(() => roll(2) - 0.5)) one.hear(other.log);
      for (const one of phones) for (const other of phones) one.hear(other.log);
      const [first, ...rest] = phones.map(({ log }) => canonicalText(visitOf(log)));
      for (const other of rest) expect(other).toBe(first);
      expect(new Set(phones[0]!.log.map(({ id }) => id))).toEqual(new Set(written.map(({ id }) => id)));
      for (const device of ['a', 'b', 'c']) {
        const numbers = phones[0]!.log.filter((entry) => entry.device === device).map(({ number }) => number).sort((a, b) => a - b);
        expect(numbers).toEqual(numbers.map((_, index) => index + 1));
      }
    }
  });

  it('joins the visits of two documents, whichever is told first, and leaves visits without a log alone', () => {
    const [one, other] = [new Phone('a', clock()), new Phone('b', clock('2026-03-02T20:01:00Z'))];
    one.write(volts('F1', 12.1));
    other.write(volts('F2', 12.2));
    const earlier: Visit = { date: '2025-01-01', kind: 'care', readings: [{ place: 'F1', quantity: 'voltage', value: 12.3, unit: 'V' }] };
    const mine = [earlier, visitOf(one.log)];
    const theirs = [earlier, visitOf(other.log)];
    const joined = joinedVisits(mine, theirs);
    expect(canonicalText(joinedVisits(theirs, mine))).toBe(canonicalText(joined));
    expect(joined).toHaveLength(2);
    expect(joined[0]).toEqual(earlier);
    expect(joined[1]!.readings!.map(({ place }) => place)).toEqual(['F1', 'F2']);
  });

  it('begins a visit that is not there yet, and adds to one that is', () => {
    const phone = new Phone('a', clock());
    const first = phone.write({ kind: 'facts', facts: { date: '2026-03-02T20:00', kind: 'commissioning' } });
    const begun = withEntries([], [first]);
    expect(begun).toMatchObject([{ id: 'v', kind: 'commissioning', date: '2026-03-02T20:00' }]);
    const more = withEntries(begun, [phone.write(volts('F1', 12))]);
    expect(more).toHaveLength(1);
    expect(more.filter(isLogged)[0]!.readings).toHaveLength(1);
  });
});
