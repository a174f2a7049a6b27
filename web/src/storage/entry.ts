// SPDX-License-Identifier: Apache-2.0
// The line of a job in the list, out of its document.
import type { JobDocument } from '../job/document';
import type { JobEntry, Saved, Summary } from './workspace';

// Documents come from files too: what should be text may be anything.
const text = (value: unknown): string => (typeof value === 'string' ? value : '');

export function entryOf(document: JobDocument, saved: Saved, archived: boolean, summary: Summary | null): JobEntry {
  return {
    id: document.id,
    revision: saved.revision,
    changed: saved.changed,
    archived,
    title: text(document.title),
    client: text(document.client?.name),
    place: text(document.site?.address),
    stage: text(document.stage),
    created: text(document.created),
    summary,
  };
}
