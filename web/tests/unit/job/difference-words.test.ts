// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { placesThatDiffer } from '../../../src/job/difference-words';
import type { JobDocument } from '../../../src/job/document';
import { garden } from '../support/garden';

const lamp = (id: string) => ({ id, item: 'x' });

it('names the places where two versions differ as a person does, each once', () => {
  const mine: JobDocument = { ...garden(), title: 'Mine', luminaires: [lamp('F1'), lamp('F2')], visits: [] };
  const theirs: JobDocument = {
    ...mine, title: 'Theirs', site: { ...mine.site, mains_v: 230, time_zone: 'Europe/Helsinki' }, luminaires: [{ ...lamp('F1'), item: 'y', dim_pct: 50 }, lamp('F2'), lamp('F3')],
    visits: [{ id: 'k3', date: '2026-04-02T21:10', kind: 'night_visit' }],
  };
  const places = placesThatDiffer(mine, theirs);
  expect([...places].sort()).toEqual(['Light F1', 'Light F3', 'Site: mains', 'Site: time zone', 'Title', 'Visit of 2026-04-02']);
  expect(places.join()).not.toMatch(/[/_{]/);
});

it('says nothing of versions that are alike', () => expect(placesThatDiffer(garden(), garden())).toEqual([]));
