// SPDX-License-Identifier: Apache-2.0
// Layers of the plan: shown or hidden, locked or free, faded or full. What is hidden or locked never takes a tap.
import type { ThingKind } from '../job/lookup';

export const layerIds = ['photo', 'base', 'light', 'lights', 'wire', 'lengths'] as const;
export type LayerId = (typeof layerIds)[number];

export interface LayerState {
  readonly shown: boolean;
  readonly locked: boolean;
  /** Drawn at a third of its strength. */
  readonly faded: boolean;
}

export const layerTitles: Record<LayerId, string> = {
  photo: 'Picture',
  base: 'Ground and site',
  light: 'Light on the ground',
  lights: 'Lights and transformers',
  wire: 'Cables and joints',
  lengths: 'Lengths',
};

export const layerOf = (kind: ThingKind): LayerId => {
  if (kind === 'luminaire' || kind === 'transformer' || kind === 'output') return 'lights';
  return kind === 'cable' || kind === 'joint' ? 'wire' : 'base';
};

const free: LayerState = { shown: true, locked: false, faded: false };

export class Layers {
  #states: Record<LayerId, LayerState> = $state.raw({ photo: { ...free, locked: true }, base: free, light: { ...free, shown: false }, lights: free, wire: free, lengths: { ...free, shown: false } });

  of(id: LayerId): LayerState {
    return this.#states[id];
  }

  set(id: LayerId, change: Partial<LayerState>): void {
    this.#states = { ...this.#states, [id]: { ...this.#states[id], ...change } };
  }

  /** Whether things of that kind may be picked, snapped to and moved. */
  takes(kind: ThingKind): boolean {
    const { shown, locked } = this.#states[layerOf(kind)];
    return shown && !locked;
  }

  shows(id: LayerId): boolean {
    return this.#states[id].shown;
  }

  opacity(id: LayerId): number {
    return this.#states[id].faded ? 0.35 : 1;
  }
}
