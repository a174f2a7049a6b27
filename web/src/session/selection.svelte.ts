// SPDX-License-Identifier: Apache-2.0
// What is selected, the same on the plan, in the lists and in the properties. A thing is named by kind and id, since
// ids are unique within a kind only.
import type { JobDocument } from '../job/document';
import { findThing, type Thing, type ThingKind } from '../job/lookup';

export interface Ref {
  readonly kind: ThingKind;
  readonly id: string;
}

const keyOf = (ref: Ref): string => `${ref.kind}/${ref.id}`;

export class Selection {
  #refs: readonly Ref[] = $state.raw([]);
  #keys = $derived(new Set(this.#refs.map(keyOf)));
  /** Goes up each time that a view asks the plan to bring the selection into sight. */
  #reveals = $state(0);

  get refs(): readonly Ref[] {
    return this.#refs;
  }

  get reveals(): number {
    return this.#reveals;
  }

  /** The one thing, if it is one. */
  get single(): Ref | undefined {
    return this.#refs.length === 1 ? this.#refs[0] : undefined;
  }

  has(ref: Ref): boolean {
    return this.#keys.has(keyOf(ref));
  }

  set(refs: readonly Ref[]): void {
    this.#refs = refs;
  }

  add(ref: Ref): void {
    if (!this.has(ref)) this.#refs = [...this.#refs, ref];
  }

  toggle(ref: Ref): void {
    this.#refs = this.has(ref) ? this.#refs.filter((other) => keyOf(other) !== keyOf(ref)) : [...this.#refs, ref];
  }

  clear(): void {
    if (this.#refs.length > 0) this.#refs = [];
  }

  /** Selects it and asks the plan to show it. */
  reveal(ref: Ref): void {
    this.#refs = [ref];
    this.#reveals += 1;
  }

  /** The things themselves; what an undo took away is left out. */
  things(job: JobDocument): Thing[] {
    return this.#refs.flatMap(({ kind, id }) => findThing(job, id, kind) ?? []);
  }
}
