// SPDX-License-Identifier: Apache-2.0
// Catalogues as lists by section: the stock, and the shop's own over it. A job carries its own copy of each item.
import type { Catalogue, JobDocument } from './document';
import type { Operation } from './operations';

export const sections = ['luminaires', 'transformers', 'cables', 'connectors', 'controls', 'sundries'] as const;
export type Section = (typeof sections)[number];
export type Item<S extends Section = Section> = NonNullable<Catalogue[S]>[number];

export function itemsOf<S extends Section>(catalogue: Catalogue | null | undefined, section: S): readonly Item<S>[] {
  return (catalogue?.[section] ?? []) as readonly Item<S>[];
}

/** The stock with the shop's items in place of those of the same id, and the shop's own after them. */
export function overlaid(stock: Catalogue, shop: Catalogue | null): Catalogue {
  if (!shop) return stock;
  const merged = sections.map((section) => {
    const own = new Map(itemsOf(shop, section).map((item) => [item.id, item]));
    const rest = itemsOf(stock, section).map((item) => {
      const mine = own.get(item.id);
      own.delete(item.id);
      return mine ?? item;
    });
    return [section, [...rest, ...own.values()]] as const;
  });
  return { ...stock, ...(shop.currency !== undefined && { currency: shop.currency }), ...Object.fromEntries(merged) };
}

/** Copies an item into the job's catalogue where it is not there yet: to be done with whatever uses it. */
export function withItem<S extends Section>(job: JobDocument, section: S, item: Item<S>): Operation[] {
  if (itemsOf(job.catalogue, section).some(({ id }) => id === item.id)) return [];
  return [{ op: 'insert', path: ['catalogue', section], value: item }];
}

/** Items with every word of `wanted` in id, title or kind. */
export function search<T extends Item>(items: readonly T[], wanted: string): readonly T[] {
  const words = wanted.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return items;
  return items.filter((item) => {
    const text = `${item.id} ${item.title ?? ''} ${'kind' in item ? item.kind.replaceAll('_', ' ') : ''}`.toLowerCase();
    return words.every((word) => text.includes(word));
  });
}
