// SPDX-License-Identifier: Apache-2.0
// The part of a job whose layers are shown: what is not drawn gets neither a label nor a line in the key.
import type { JobDocument } from '../../job/document';
import type { Layers } from '../../session/layers.svelte';

export function shownPart(job: JobDocument, layers: Pick<Layers, 'shows'>): JobDocument {
  const { id, format, version, site, catalogue, plan, luminaires, transformers, cables, joints } = job;
  return {
    id, format, version, site,
    ...(catalogue && { catalogue }),
    ...(layers.shows('base') && plan && { plan }),
    ...(layers.shows('lights') && { luminaires: luminaires ?? [], transformers: transformers ?? [] }),
    ...(layers.shows('wire') && { cables: cables ?? [], joints: joints ?? [] }),
  };
}
