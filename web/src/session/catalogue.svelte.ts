// SPDX-License-Identifier: Apache-2.0
// The catalogue to choose from: the stock with the shop's own items over it, kept in the workspace.
import type { Engine } from '../engine/client';
import { itemsOf, overlaid, type Item, type Section } from '../job/catalogue';
import type { Catalogue, CatalogueFile } from '../job/document';
import { StorageFailure, type Base, type Workspace } from '../storage/workspace';

const emptyShop: CatalogueFile = { format: 'duskwire-catalogue', version: 1, title: 'Own catalogue' };

export class ShopCatalogue {
  stock: Catalogue = $state.raw({});
  shop: CatalogueFile | null = $state.raw(null);
  /** Both in one, for choosing. */
  all: Catalogue = $derived(overlaid(this.stock, this.shop));
  failure: string | undefined = $state();

  #engine: Engine;
  #workspace: Workspace;
  #base: Base = { revision: 0 };
  #loading: Promise<void> | undefined;

  constructor(engine: Engine, workspace: Workspace) {
    this.#engine = engine;
    this.#workspace = workspace;
  }

  get currency(): string {
    return this.all.currency ?? 'USD';
  }

  load(): Promise<void> {
    return (this.#loading ??= this.#load());
  }

  isOwn(section: Section, id: string): boolean {
    return itemsOf(this.shop, section).some((item) => item.id === id);
  }

  /** Puts an item into the shop's catalogue, new or in place of that id. */
  put<S extends Section>(section: S, item: Item<S>): Promise<void> {
    return this.#change((shop) => {
      const items = itemsOf(shop, section);
      const known = items.some(({ id }) => id === item.id);
      return { ...shop, [section]: known ? items.map((other) => (other.id === item.id ? item : other)) : [...items, item] };
    });
  }

  /** Takes the shop's own version out; the stock's shows again where there is one. */
  remove(section: Section, id: string): Promise<void> {
    return this.#change((shop) => ({ ...shop, [section]: itemsOf(shop, section).filter((item) => item.id !== id) }));
  }

  async #load(): Promise<void> {
    this.failure = undefined;
    try {
      const [stock] = await Promise.all([this.#engine.stock(), this.#loadShop()]);
      this.stock = stock;
    } catch (error) {
      this.failure = error instanceof Error ? error.message : String(error);
      this.#loading = undefined;
    }
  }

  async #loadShop(): Promise<void> {
    const opened = await this.#workspace.shopCatalogue();
    this.#base = opened;
    this.shop = opened.document;
  }

  // Someone else may have saved in between: the change is then made on what they saved, once.
  async #change(edit: (shop: CatalogueFile) => CatalogueFile): Promise<void> {
    try {
      await this.#save(edit);
    } catch (error) {
      if (!(error instanceof StorageFailure) || error.kind !== 'conflict') throw error;
      await this.#loadShop();
      await this.#save(edit);
    }
  }

  async #save(edit: (shop: CatalogueFile) => CatalogueFile): Promise<void> {
    const next = edit(this.shop ?? { ...emptyShop, currency: this.currency });
    this.#base = await this.#workspace.saveShopCatalogue(this.#base, next);
    this.shop = next;
  }
}
