// SPDX-License-Identifier: Apache-2.0
// Which of the engine's comparisons belongs to which entry of the log: the engine answers in the order of the readings
// and leaves out what it puts aside.
import type { ComparedReading, Located } from '../engine/locate';
import type { ReadingEntry } from '../job/visit-log';

export type Judged =
  | { readonly state: 'sound' | 'off' | 'again'; readonly compared: ComparedReading }
  | { readonly state: 'unused'; readonly why: string }
  | { readonly state: 'seen' };

export function judged(entries: readonly ReadingEntry[], answer: Pick<Located, 'compared' | 'unused'> | undefined): ReadonlyMap<string, Judged> {
  const result = new Map<string, Judged>();
  if (!answer) return result;
  const compared = [...answer.compared];
  const unused = [...answer.unused];
  for (const { id, reading } of entries) {
    const same = ({ place, quantity }: { place: string; quantity: string }): boolean => place === reading.place && quantity === reading.quantity;
    // Watts of a transformer come back as volt-amperes: there place and quantity have to do.
    const isThis = (one: ComparedReading): boolean => same(one) && (one.unit !== reading.unit || Math.abs(one.measured - Math.abs(reading.value ?? 0)) < 1e-6);
    const at = compared.findIndex(isThis);
    const aside = unused.findIndex(same);
    if (at >= 0) {
      const [one] = compared.splice(at, 1);
      const isSeen = reading.seen !== undefined && reading.seen !== 'measured';
      if (isSeen) result.set(id, { state: 'seen' });
      else result.set(id, { state: one!.read_again ? 'again' : one!.in_tolerance ? 'sound' : 'off', compared: one! });
    } else if (aside >= 0) {
      result.set(id, { state: 'unused', why: unused.splice(aside, 1)[0]!.why });
    } else {
      result.set(id, { state: 'seen' });
    }
  }
  return result;
}
