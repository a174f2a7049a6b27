// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { addExtra, addOption, chooseOption, removeExtra, setExclusions, setInOffer, withLights } from '../../../src/job/edits/offer';
import type { JobDocument } from '../../../src/job/document';
import { JobStore } from '../../../src/job/store.svelte';
import { garden } from '../support/garden';

const withOffer = (offer: unknown): JobDocument => ({ ...garden(), offer }) as JobDocument;

describe('editing the offer', () => {
  it('makes the offer with the first key, and undo takes all of it away', () => {
    const store = new JobStore(garden());
    store.run(setInOffer('An hour, price', ['rates', 'labour_price_minor_per_h'], 8500));
    expect(store.document.offer).toEqual({ rates: { labour_price_minor_per_h: 8500 } });
    store.undo();
    expect(store.document.offer).toBeUndefined();
  });

  it('keeps keys that it does not know, and takes away what is emptied', () => {
    const store = new JobStore(withOffer({ rates: { crew_size: 2, of_a_later_version: 'kept' }, season: 'spring' }));
    store.run(setInOffer('Crew', ['rates', 'crew_size'], undefined));
    expect(store.document.offer).toEqual({ rates: { of_a_later_version: 'kept' }, season: 'spring' });
  });

  it('puts lights into an option in the order of the job', () => {
    const job = { ...garden(), luminaires: [{ id: 'F1', item: 'a' }, { id: 'F2', item: 'a' }] };
    const [first, second] = job.luminaires;
    const store = new JobStore({ ...job, offer: { options: [{ id: 'o', luminaires: ['gone'] }] } });
    const option = () => store.document.offer!.options![0]!;
    store.run(withLights(store.document, option(), [second!.id], true));
    store.run(withLights(store.document, option(), [first!.id], true));
    expect(option().luminaires).toEqual([first!.id, second!.id, 'gone']);
    store.run(withLights(store.document, option(), [second!.id], false));
    expect(option().luminaires).toEqual([first!.id, 'gone']);
  });

  it('takes one variant at most, parts each for itself', () => {
    const options = [{ id: 'good', kind: 'variant', chosen: true }, { id: 'best', kind: 'variant' }, { id: 'part', kind: 'part', chosen: true }];
    const store = new JobStore(withOffer({ options }));
    store.run(chooseOption(store.document, store.document.offer!.options![1]!, true));
    expect(store.document.offer!.options!.map(({ chosen }) => chosen ?? false)).toEqual([false, true, true]);
    store.undo();
    expect(store.document.offer!.options).toEqual(options);
  });

  it('names a new option by its kind, and adds and removes extras', () => {
    const store = new JobStore(withOffer({ options: [{ id: 'a', kind: 'phase' }] }));
    const { command, id } = addOption(store.document, 'phase');
    store.run(command);
    expect(store.document.offer!.options!.find((option) => option.id === id)!.title).toBe('Phase 2');
    store.run(addExtra());
    const [extra] = store.document.offer!.extras!;
    expect(extra).toMatchObject({ price_minor: 0 });
    store.run(removeExtra(store.document, extra!.id));
    expect(store.document.offer!.extras).toEqual([]);
  });

  it('takes exclusions a line each', () => {
    const store = new JobStore(garden());
    store.run(setExclusions('Rock\n\n  Roots \n'));
    expect(store.document.offer!.terms!.exclusions).toEqual(['Rock', 'Roots']);
    store.run(setExclusions('\n'));
    expect(store.document.offer!.terms).toEqual({});
  });
});
